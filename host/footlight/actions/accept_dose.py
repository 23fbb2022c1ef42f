"""What `accept` writes and `undo` takes back: references in a light-setups file, with their history."""

import sqlite3
from dataclasses import dataclass
from pathlib import Path

from footlight.errors import InputError
from footlight.notebook import acts
from footlight.notebook.stock import light_setups
from footlight.notebook.stock.light_setups import Change
from footlight.sequence import setups_edit
from footlight.sequence.setups import Setups, load_setups


@dataclass(frozen=True)
class Plan:
    """What is to be written. changes: only where the file says something else now."""

    path: Path
    changes: list[Change]
    unchanged: list[str]


def plan(path: Path, names: tuple[str, ...], written: str, reading_id: int) -> Plan:
    """What writing a reference exposure into light setups of a file would change. Raises InputError."""
    setups = load_setups(path)
    for name in names:
        setups.get(name, "--setup")
    held = setups_edit.references(setups_edit.read(path), path.name)
    file = str(path.resolve())
    changes = [Change(file, name, held[name], written, reading_id) for name in names if held[name] != written]
    return Plan(path, changes, [name for name in names if held[name] == written])


def twins(path: Path, name: str) -> tuple[str, ...]:
    """That setup and those of the same light and reference: what is found for one holds for all."""
    setups = load_setups(path)
    setups.get(name, "--setup")
    return tuple(other for other in setups.setups if _same(setups, name, other))


def _same(setups: Setups, one: str, other: str) -> bool:
    a, b = setups.setups[one].setup, setups.setups[other].setup
    light = ("lamp", "lens", "focal_mm", "filter", "nd_density_d", "source_mm", "reference")
    return one == other or (
        a.reference is not None and all(getattr(a, key) == getattr(b, key) for key in light)
    )


def carry_out(connection: sqlite3.Connection, planned: Plan, said: str, now_s: int) -> None:
    """Write file and history in one act.

    The file comes last, when the history is certain to be kept but for the commit itself. Where the power
    goes just between, the file holds the new reference and the history does not: the command, given again,
    says that nothing is left to change.
    """
    wanted = {one.setup: one.after for one in planned.changes}
    before = setups_edit.read(planned.path)
    after = setups_edit.with_references(before, planned.path.name, wanted)
    try:
        with acts.act(connection, said, now_s) as act_id:
            light_setups.note(connection, act_id, planned.changes)
            setups_edit.write(planned.path, after)
    except sqlite3.Error:
        setups_edit.write(planned.path, before)
        raise


def put_back(changes: list[Change]) -> list[str]:
    """Put back what was written into light-setups files, where they still say it -> a line each."""
    said = []
    for file in dict.fromkeys(one.file for one in changes):
        said += _put_back(Path(file), [one for one in changes if one.file == file])
    return said


def _put_back(path: Path, changes: list[Change]) -> list[str]:
    try:
        text = setups_edit.read(path)
        held = setups_edit.references(text, path.name)
    except InputError as error:
        return [f"left as it is: {error}"]
    ours = {one.setup: one.before for one in changes if held.get(one.setup) == one.after}
    if ours:
        setups_edit.write(path, setups_edit.with_references(text, path.name, ours))
    return [_told(path, one, held.get(one.setup)) for one in changes]


def _told(path: Path, change: Change, held: str | None) -> str:
    where = f"{path}, setup '{change.setup}'"
    if held == change.after:
        return f"{where}: reference {change.before or 'none'} again"
    if held == change.before:
        return f"{where}: says {held or 'no reference'} already"
    now = "is gone" if held is None else f"says {held or 'no reference'}"
    return f"{where}: {now}, which was written since; left as it is"
