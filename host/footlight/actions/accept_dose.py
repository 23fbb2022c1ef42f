"""The dose that a strip advises becomes the reference of its light setup: file and history in one act."""

import json
import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from footlight.errors import InputError, field
from footlight.light.setup import LightSetup
from footlight.notebook import acts
from footlight.notebook.book import notebook
from footlight.notebook.sheets import readings
from footlight.notebook.sheets.readings import Kept
from footlight.notebook.stock import light_setups
from footlight.notebook.stock.light_setups import Change
from footlight.quantities import format_seconds
from footlight.sequence import setups_edit
from footlight.sequence.reference import reference
from footlight.sequence.setups import load_setups

# What two setups share when what a strip found for one holds for the other.
_SAME_LIGHT = ("lamp", "lens", "focal_mm", "filter", "nd_density_d", "source_mm", "reference")


@dataclass(frozen=True)
class Acceptance:
    """What is to be written into a light-setups file. reference: as it is written there; setups: into which.

    changes: only where the file says something else now. unchanged: setups that say it already.
    """

    reading_id: int
    path: Path
    reference: str
    setups: tuple[str, ...]
    changes: tuple[Change, ...]
    unchanged: tuple[str, ...]


def plan_acceptance(
    book: Path,
    path: Path,
    *,
    reading_id: int | None = None,
    setups: Sequence[str] = (),
    dose_s: float | None = None,
    place: str | None = None,
) -> Acceptance:
    """What accepting a reading would change; nothing is written yet.

    reading_id: None for the last. path: the light-setups file. setups: into which; without any that of the
    strip's lights, and those of the same light that had the same reference. dose_s: instead of the advice
    [s]. place: where the strip stood, as written ('620 mm f/11'), if the reading does not know it. Raises
    InputError where a dose, a place or a setup is missing or none, NotebookError for no such reading.
    """
    with notebook(book, writing=False) as connection:
        kept = readings.find(connection, reading_id)
    written = _reference(kept, dose_s, place)
    return plan_references(path, setups or twins(path, _setup_of(kept)), written, kept.id)


def plan_references(path: Path, setups: Sequence[str], written: str, reading_id: int) -> Acceptance:
    """What writing a reference exposure into light setups of a file would change. Raises InputError."""
    loaded = load_setups(path)
    for name in setups:
        loaded.get(name, field("setup"))
    held = setups_edit.references(setups_edit.read(path), path.name)
    file = str(path.resolve())
    return Acceptance(
        reading_id,
        path,
        written,
        tuple(setups),
        tuple(
            Change(file, name, held[name], written, reading_id) for name in setups if held[name] != written
        ),
        tuple(name for name in setups if held[name] == written),
    )


def twins(path: Path, name: str) -> tuple[str, ...]:
    """That setup and those of the same light and reference: what is found for one holds for all."""
    loaded = load_setups(path)
    setup = loaded.get(name, field("setup")).setup
    return tuple(
        other for other, placed in loaded.setups.items() if other == name or _same_light(setup, placed.setup)
    )


def accept_dose(book: Path, acceptance: Acceptance, now_s: int) -> None:
    """Write file and history in one act; nothing where nothing changes.

    The file comes last, when the history is certain to be kept but for the commit itself. Where the power
    goes just between, the file holds the new reference and the history does not: accepting again says that
    nothing is left to change.
    """
    if not acceptance.changes:
        return
    names = ", ".join(acceptance.setups)
    path, written = acceptance.path, acceptance.reference
    said = f"reading {acceptance.reading_id} accepted: {names} {written} in {path.name}"
    before = setups_edit.read(path)
    wanted = {change.setup: change.after for change in acceptance.changes}
    after = setups_edit.with_references(before, path.name, wanted)
    with notebook(book, writing=True) as connection:
        try:
            with acts.act(connection, said, now_s) as act_id:
                light_setups.note(connection, act_id, [*acceptance.changes])
                setups_edit.write(path, after)
        except sqlite3.Error:
            setups_edit.write(path, before)
            raise


def _same_light(setup: LightSetup, other: LightSetup) -> bool:
    return setup.reference is not None and all(
        getattr(setup, key) == getattr(other, key) for key in _SAME_LIGHT
    )


def _reference(kept: Kept, dose_s: float | None, place: str | None) -> str:
    """The new reference, as it is written in the file."""
    if kept.kind == "print":
        raise InputError(f"reading {kept.id} is of a print, which advises no dose; name a strip's reading")
    seconds = kept.dose_s if dose_s is None else dose_s
    if seconds is None:
        raise InputError(
            f"reading {kept.id} found no safe dose; make the next strip, or say which you take:"
            f" {field('dose')} '7 s'"
        )
    where = place or (json.loads(kept.result).get("taken") or {}).get("place")
    if not where:
        raise InputError(
            f"reading {kept.id}: where its strip stood is not known; say it, for example"
            f" {field('at')} '620 mm f/11'"
        )
    written = f"{format_seconds(seconds)} at {where}"
    reference().read(written, field("at"))
    return written


def _setup_of(kept: Kept) -> str:
    if not kept.setup:
        raise InputError(
            f"reading {kept.id}: its doses were typed, so its light setup is not known; name it, for example"
            f" {field('setup')} second"
        )
    return kept.setup
