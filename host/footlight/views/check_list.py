"""The check list before a run, told to a person and to a script."""

from typing import Any

from footlight.actions.check_before_run import CheckList
from footlight.baths.check import Check


def check_line(check: Check) -> str:
    """`[!]` is known not to be in order."""
    return f"{'[!]' if check.wrong else '[ ]'} {check.text}"


def check_list_dict(listed: CheckList) -> dict[str, Any]:
    """For a script. wrong: how many lines are known not to be in order."""
    return {
        "title": listed.title,
        "name": listed.name,
        "wrong": sum(check.wrong for check in listed.checks),
        "checks": [vars(check) for check in listed.checks],
    }
