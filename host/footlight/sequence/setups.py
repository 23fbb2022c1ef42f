"""The light-setups file: lamps, and the setups that use them."""

from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from footlight.errors import InputError
from footlight.light.setup import Departure, LightSetup
from footlight.quantities import FStop
from footlight.sequence import setup_keys as keys
from footlight.sequence import shown as display
from footlight.sequence.errors import nearest, short
from footlight.sequence.files import Read, read_text, read_toml
from footlight.sequence.keys import read_keys
from footlight.sequence.model import Lamp, PlacedSetup
from footlight.sequence.places import Place
from footlight.sequence.readers import name as name_reader

NOUN = "a light-setups file"


@dataclass(frozen=True)
class Setups:
    """All light setups of a file, by name, in its order."""

    path: Path
    setups: dict[str, PlacedSetup]

    def get(self, name: str, what: str) -> PlacedSetup:
        """The setup of that name; raises InputError naming the nearest."""
        if name in self.setups:
            return self.setups[name]
        hint = nearest(name, list(self.setups)) or "; it has none"
        raise InputError(f"{what}: there is no light setup '{short(name)}' in {self.path.name}{hint}")


def load_setups(path: Path) -> Setups:
    """Read and check a light-setups file. Raises InputError, one line, for anything that is not right."""
    return _checked(read_toml(Path(path), NOUN), Path(path))


def setups_from_text(text: str, name: str) -> Setups:
    """The same of a file's text that was kept; `name` stands for it in messages."""
    return _checked(read_text(text, name, NOUN), Path(name))


def _checked(found: Read, path: Path) -> Setups:
    head = read_keys(found.table, keys.FILE, found.head)
    lamps = {name: _lamp(name, raw, found) for name, raw in _tables(head["lamp"], "lamp", found)}
    setups = {}
    for name, raw in _tables(head["setup"], "setup", found):
        place = found.head.table(f"setup.{name}", f"light setup '{name}'")
        setups[name] = _setup(name, read_keys(raw, keys.SETUP, place), lamps, place)
    return Setups(path, setups)


def at_step(placed: PlacedSetup, height_mm: float | None, stop: FStop | None, what: str) -> PlacedSetup:
    """A setup at another height [mm] and stop, where a step gives them."""
    if stop is not None and placed.setup.lens is None:
        raise InputError(f"{what}: stop: light setup '{placed.name}' is a bare lamp and has no stop")
    moved = replace(
        placed.setup, height_mm=height_mm or placed.setup.height_mm, stop=stop or placed.setup.stop
    )
    return replace(placed, setup=moved)


def _tables(raw: Any, kind: str, found: Read) -> list[tuple[str, Any]]:
    """The named tables under `lamp` or `setup`."""
    if not isinstance(raw, dict):
        raise InputError(f"{found.head.of(kind)}: give each a name, for example [{kind}.enlarger]")
    check = name_reader()
    return [(check.read(name, found.head.of(kind)), table) for name, table in raw.items()]


def _lamp(name: str, raw: Any, found: Read) -> tuple[Lamp, dict[str, Any]]:
    place = found.head.table(f"lamp.{name}", f"lamp '{name}'")
    values = read_keys(raw, keys.LAMP, place)
    show = values["show"] or display.from_name(name, place.of())
    lamp = Lamp(name, show, values["cap"], values["ten_minute_limit"], values["least"])
    return lamp, values


def _setup(
    name: str, values: dict[str, Any], lamps: dict[str, tuple[Lamp, dict[str, Any]]], place: Place
) -> PlacedSetup:
    if values["lamp"] not in lamps:
        hint = nearest(values["lamp"], list(lamps)) or "; it has none"
        raise InputError(f"{place.of('lamp')}: there is no lamp '{short(values['lamp'])}' in this file{hint}")
    _check_lens(values, place)
    _check_height(values, place)
    lamp, of_lamp = lamps[values["lamp"]]
    setup = LightSetup(
        name=name,
        lamp=lamp.name,
        lens=values["lens"],
        focal_mm=values["focal_length"],
        stop=values["stop"],
        height_mm=values["height"],
        dead_ms=values["dead_time"],
        filter=values["filter"],
        reference=values["reference"],
        meter=values["meter"],
        nd_density_d=values["neutral_density"],
        source_mm=of_lamp["source"],
        departure=_departure(values),
        head=of_lamp["head"],
        relay=of_lamp["relay"],
        mains_hz=float(of_lamp["mains"].split()[0]),
        highest_mm=values["highest"],
    )
    return PlacedSetup(setup, lamp, display.shown_lens(setup.lens, setup.focal_mm))


def _departure(values: dict[str, Any]) -> Departure | None:
    if values["departure"] is None:
        return None
    return Departure(values["departure"], values["departure_uncertainty"])


def _check_height(values: dict[str, Any], place: Place) -> None:
    highest_mm = values["highest"]
    if highest_mm is not None and values["height"] > highest_mm:
        raise InputError(
            f"{place.of('height')}: {values['height']:.0f} mm is above highest, {highest_mm:.0f} mm; correct"
            " one of them"
        )


def _check_lens(values: dict[str, Any], place: Place) -> None:
    """A lens has a stop and something to show; a bare lamp has neither; exposures agree with that."""
    lens = values["lens"]
    if lens and values["stop"] is None:
        raise InputError(f'{place.of()}: stop is missing; write for example stop = "f/11"')
    if lens and not display.shown_lens(lens, values["focal_length"]):
        raise InputError(
            f"{place.of('lens')}: the display cannot hold '{short(lens)}';"
            ' add its focal_length, for example focal_length = "80 mm"'
        )
    if not lens and (values["stop"] or values["focal_length"]):
        raise InputError(f'{place.of("lens")} is missing; write for example lens = "80 mm"')
    for key in ("reference", "meter"):
        found = values[key]
        if found and lens and found.stop is None:
            raise InputError(f"{place.of(key)}: its stop is missing; write it last, for example 'f/11'")
        if found and not lens and found.stop is not None:
            raise InputError(f"{place.of(key)}: a stop is written, but this setup has no lens")
