"""A sequence file -> a checked sequence."""

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

from footlight.chemistry.formula import Formula
from footlight.errors import InputError
from footlight.light.setup import LightSetup
from footlight.sequence import step_keys as keys
from footlight.sequence.errors import short
from footlight.sequence.files import Read, beside, read_text, read_toml
from footlight.sequence.formulas import formula_for
from footlight.sequence.keys import read_keys
from footlight.sequence.model import AnyStep, Light, Sequence, Tray
from footlight.sequence.places import Place
from footlight.sequence.readers import name as name_reader
from footlight.sequence.setups import Setups, load_setups, setups_from_text
from footlight.sequence.steps import Around, place_of, read_step
from footlight_core.program import MAX_STEPS

NOUN = "a sequence file"
_Lights = Callable[[str, Place], Setups]
_Formulas = Callable[[str, Path, str], Formula | None]
_LIFE = re.compile(r"([1-9]\d{0,3}) sheets?")


def load(path: Path, setups: Path | None = None) -> Sequence:
    """Read and check a sequence file.

    path: the file. setups: a light-setups file to be used instead of the one that the sequence names.
    Raises InputError, one line that names file, line, step, key, value and what is allowed.
    """
    return _of_file(read_toml(Path(path), NOUN), Path(path), setups)


def load_text(text: str, path: Path) -> Sequence:
    """The same of a text that is to be the file at `path`, beside which its light setups lie."""
    return _of_file(read_text(text, str(path), NOUN), path)


def _of_file(found: Read, path: Path, setups: Path | None = None) -> Sequence:
    def lights(named: str, place: Place) -> Setups:
        """A sequence file may point only beside or below itself."""
        return load_setups(setups if setups is not None else beside(path, named, place.of("setups")))

    return _sequence(found, path, lights, formula_for)


def load_kept(source: str, setups: str, file: str) -> Sequence:
    """A sequence from the texts of its two files, as a notebook keeps them; `file` heads messages.

    Formulas of trays are not looked up: their files were not kept, and no time depends on them.
    """
    lights = f"{file}, its light setups"
    found = read_text(source, file, NOUN)
    return _sequence(found, Path(file), lambda *_: setups_from_text(setups, lights), lambda *_: None)


def _sequence(found: Read, path: Path, lights_of: _Lights, formula_of: _Formulas) -> Sequence:
    head = read_keys(found.table, keys.HEAD, found.head)
    trays = {
        name: read_tray(name, raw, path, found.head, formula_of)
        for name, raw in named_tables(head["trays"], found.head)
    }
    raws = raw_steps(head["step"], found.head)
    lights = lights_of(head["setups"], found.head) if has_light(raws) else None
    around = Around(trays, lights)
    places = {number: place_of(number, raw, found.head) for number, raw in enumerate(raws, start=1)}
    steps = tuple(read_step(number, raw, places[number], around) for number, raw in enumerate(raws, start=1))
    _check_white(steps, head["sheets"], places)
    return Sequence(
        path=path,
        title=head["title"],
        name=head["name"],
        about=head["about"],
        sheets=head["sheets"],
        sheet=head["sheet"],
        trays=tuple(trays.values()),
        steps=steps,
        setups_used=_used(steps),
        places={number: place.of() for number, place in places.items()},
        setups_path=lights.path if lights else None,
    )


def named_tables(raw: Any, head: Place) -> list[tuple[str, Any]]:
    """The trays by name, not read yet; raises InputError."""
    if not isinstance(raw, dict):
        raise InputError(f"{head.of('trays')}: give each a name, for example [trays.fixer]")
    check = name_reader()
    return [(check.read(name, head.of("trays")), table) for name, table in raw.items()]


def read_tray(name: str, raw: Any, path: Path, head: Place, formula_of: _Formulas) -> Tray:
    """A checked tray; raises InputError."""
    place = head.table(f"trays.{name}", f"tray '{name}'")
    values = read_keys(raw, keys.TRAY, place)
    return Tray(
        name=name,
        place=values["place"],
        tongs=values["tongs"],
        size=values["size"],
        bath=values["bath"] or name,
        formula=values["formula"],
        mixed=formula_of(values["formula"], path, place.of("formula")),
        life_sheets=_life(values["life"], place),
    )


def _life(written: str | int, place: Place) -> int:
    if not written or written == keys.ONE_SHEET:
        return 1 if written else 0
    match = _LIFE.fullmatch(str(written))
    if match is None:
        raise InputError(
            f'{place.of("life")}: \'{short(written)}\'; write "{keys.ONE_SHEET}" or for example "12 sheets"'
        )
    return int(match[1])


def raw_steps(raw: Any, head: Place) -> list[Any]:
    """The tables of the steps, not read yet; raises InputError for none, and for too many."""
    if not isinstance(raw, list):
        raise InputError(f"{head.of('step')}: write each step under [[step]], with two brackets")
    if not 1 <= len(raw) <= MAX_STEPS:
        raise InputError(
            f"{head.of('step')}: {len(raw)} steps; allowed is 1 to {MAX_STEPS}: split it into two sequences"
        )
    return raw


def has_light(raws: list[Any]) -> bool:
    """Is there a light among them?"""
    return any(isinstance(raw, dict) and raw.get("kind") == Light.kind for raw in raws)


def _used(steps: tuple[AnyStep, ...]) -> tuple[LightSetup, ...]:
    """Every setup once, as it stands in its first light."""
    used = {}
    for step in steps:
        if isinstance(step, Light):
            used.setdefault(step.placed.name, step.placed.setup)
    return tuple(used.values())


def _check_white(steps: tuple[AnyStep, ...], sheets: int, places: dict[int, Place]) -> None:
    """White light and a sheet that is not fixed: other sheets of a batch, or a light still to come."""
    for step in steps:
        if step.white and sheets > 1:
            raise InputError(
                f"{places[step.number].of('white_light')}: true, in a batch of {sheets} sheets; the others"
                " are not fixed yet: leave it out"
            )
        later = [other for other in steps[step.number :] if isinstance(other, Light)]
        if step.white and (later or isinstance(step, Light)):
            light = later[0] if later else step
            raise InputError(
                f"{places[step.number].of('white_light')}: true, but step {light.number} '{light.name}' is a"
                " light that white light would spoil; permit it after the last light"
            )
