"""Acts as lines of text: what was entered, what of it was taken back, and what that did in files."""

from collections.abc import Sequence
from typing import Any

from footlight.actions.turn_act import FileTurn, Turned
from footlight.notebook.acts import Dated
from footlight.views.table import columns
from footlight.views.times import date_text


def history(entered: Sequence[Dated], width: int | None = None) -> list[str]:
    """Acts as a table, `width` characters wide at most; nothing without any."""
    rows = [[f"{act.id}", date_text(act.done_unix_s), told(act)] for act in entered]
    return columns(["act", "entered", "what"], rows, width)


def told(act: Dated) -> str:
    """What was entered, and when it was taken back and let stand again."""
    turns = ", ".join(f"{turn.kind} {date_text(turn.at_unix_s)}" for turn in act.turns)
    return f"{act.said} ({turns})" if turns else act.said


def turned(what: str, done: Turned) -> list[str]:
    """`taken back: ...`, and a line for each reference in a file."""
    return [f"{what}: {done.act.said}", *map(_file_line, done.files)]


def as_dict(what: str, done: Turned) -> dict[str, Any]:
    """The same for a script; what was turned is said under the key `what`."""
    return {
        what: done.act.said,
        "act": done.act.id,
        "done_unix_s": done.act.done_unix_s,
        "files": [*map(_file_line, done.files)],
    }


def _file_line(turn: FileTurn) -> str:
    if turn.outcome == "unreadable":
        return f"left as it is: {turn.error}"
    held = turn.held or "no reference"
    ends = {
        "written": f"reference {turn.wanted or 'none'} again",
        "already so": f"says {held} already",
        "gone": "is gone, which was written since; left as it is",
        "changed since": f"says {held}, which was written since; left as it is",
    }
    return f"{turn.path}, setup '{turn.setup}': {ends[turn.outcome]}"
