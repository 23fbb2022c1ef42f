"""An act is taken back, or stands again: in the notebook, and in the light-setups files it wrote into."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from footlight.errors import InputError
from footlight.notebook import acts
from footlight.notebook.acts import Act
from footlight.notebook.book import notebook
from footlight.notebook.reinstate import reinstate
from footlight.notebook.stock import light_setups
from footlight.notebook.stock.light_setups import Change

Outcome = Literal["written", "already so", "changed since", "gone", "unreadable"]


@dataclass(frozen=True)
class FileTurn:
    """What became of one reference in a light-setups file. wanted: as it is to be written, '' for none.

    held: what the file says, where the outcome is that it was changed since. error: why it is unreadable.
    """

    path: Path
    setup: str
    wanted: str
    outcome: Outcome
    held: str = ""
    error: str = ""


@dataclass(frozen=True)
class Turned:
    """The act, and what was done in files for it."""

    act: Act
    files: tuple[FileTurn, ...]


def undo_act(book: Path, number: int | None, now_s: int) -> Turned:
    """Take back the act of that number, or the last that stands; references in files go back to before.

    Raises NotebookError when there is none, or when what was entered later needs it.
    """
    files: list[FileTurn] = []

    def put_back(act: Act) -> None:
        files.extend(_turned(light_setups.of_act(connection, act.id)))

    with notebook(book, writing=True, making=False) as connection:
        return Turned(acts.undo(connection, now_s, also=put_back, number=number), tuple(files))


def reinstate_act(book: Path, number: int | None, now_s: int) -> Turned:
    """Let the act of that number, or what was taken back last, stand again, its references in files too.

    Raises NotebookError when there is none, or when it no longer fits what stands.
    """
    files: list[FileTurn] = []

    def write_again(act: Act) -> None:
        changes = light_setups.of_act(connection, act.id)
        files.extend(_turned([change.reversed() for change in changes]))

    with notebook(book, writing=True, making=False) as connection:
        return Turned(reinstate(connection, now_s, also=write_again, number=number), tuple(files))


def _turned(changes: Sequence[Change]) -> list[FileTurn]:
    """The way back of changes, where the files still say them."""
    turns = []
    for file in dict.fromkeys(change.file for change in changes):
        turns += _turned_in(Path(file), [change for change in changes if change.file == file])
    return turns


def _turned_in(path: Path, changes: Sequence[Change]) -> list[FileTurn]:
    # Only here: most acts wrote into no file, and need nothing loaded for it.
    from footlight.sequence import setups_edit

    try:
        text = setups_edit.read(path)
        held = setups_edit.references(text, path.name)
    except InputError as error:
        return [FileTurn(path, "", "", "unreadable", error=f"{error}")]
    ours = {change.setup: change.before for change in changes if held.get(change.setup) == change.after}
    if ours:
        setups_edit.write(path, setups_edit.with_references(text, path.name, ours))
    return [_turn_of(path, change, held.get(change.setup)) for change in changes]


def _turn_of(path: Path, change: Change, held: str | None) -> FileTurn:
    outcome: Outcome = "changed since"
    if held is None:
        outcome = "gone"
    elif held == change.after:
        outcome = "written"
    elif held == change.before:
        outcome = "already so"
    return FileTurn(path, change.setup, change.before, outcome, held or "")
