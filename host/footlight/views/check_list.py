"""The check list before a run, told to a person and to a script."""

import textwrap
from typing import Any

from footlight.actions.check_before_run import CheckList
from footlight.baths.check import Check


def check_line(check: Check, width: int | None = None) -> str:
    """`[!]` is known not to be in order. width: of the terminal [characters]; a long line goes on below."""
    line = f"{'[!]' if check.wrong else '[ ]'} {check.text}"
    if width is None or len(line) <= width:
        return line
    indent = " " * 6
    return textwrap.fill(
        line, width, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False
    )


def check_list_dict(listed: CheckList) -> dict[str, Any]:
    """For a script. wrong: how many lines are known not to be in order."""
    return {
        "title": listed.title,
        "name": listed.name,
        "wrong": sum(check.wrong for check in listed.checks),
        "checks": [vars(check) for check in listed.checks],
    }
