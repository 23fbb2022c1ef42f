"""A paper's file and a scene's file: what `footlight tones` reads, checked key by key."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from footlight import quantities as q
from footlight.errors import InputError
from footlight.quantities.table import Where, inside, keys_of
from footlight.sequence.files import read_toml
from footlight.tones.curve import Sheet, Step
from footlight.tones.exposures import place_lx_s
from footlight.tones.scene import Scene

ENLARGER_FLARE = "0.4 %"
_MOST_FLASH_S = 600.0
_PAPER_KEYS = ("paper", "about", "sheet", "camera", "flash", "print")
_SHEET_KEYS = ("time", "index", "flare", "flash", "light_off", "batch", "steps")
_CAMERA_KEYS = ("flare", "p", "meter_off")
_FLASH_KEYS = ("alone",)
_PLAN_KEYS = ("index", "set", "time", "mean", "flash", "places")
_MOST_LISTED = 100


@dataclass(frozen=True)
class Kept:
    """A print that taught: its scene by plan, its batch, and what each place became [D]."""

    scene: Scene
    batch: str
    densities: Mapping[str, float]


@dataclass(frozen=True)
class Paper:
    """A paper's file. alone: flashes and nothing else, [s] and [D]. p: None where it was not measured."""

    file: str
    name: str
    batch: str
    sheet: Sheet
    flare_share: float
    p: float | None
    meter_off_stops: float | None
    alone: tuple[tuple[float, float], ...]
    prints: tuple[Kept, ...]


@dataclass(frozen=True)
class Asked:
    """A scene's file: the scene, its batch of paper ('' for the newest), wanted tones [D]."""

    scene: Scene
    wanted: Mapping[str, float]


def read_paper(path: Path) -> Paper:
    """The paper of a file. Raises `InputError`, one line naming file, key and value."""
    file = read_toml(path, "a paper's file")
    where = file.head.of
    keys = keys_of(
        file.table, _PAPER_KEYS, where, {"paper": '"pearl"', "sheet": "a table: [sheet], with its steps"}
    )
    in_camera = inside(where, "camera")
    camera = keys_of(keys.get("camera", {}), _CAMERA_KEYS, in_camera)
    in_flash = inside(where, "flash")
    flash = keys_of(keys.get("flash", {}), _FLASH_KEYS, in_flash)
    prints = _list(keys.get("print", []), where("print"))
    return Paper(
        where(""),
        _word(keys["paper"], where("paper")),
        _word(keys_of(keys["sheet"], _SHEET_KEYS, inside(where, "sheet")).get("batch", "1"), where("batch")),
        _sheet(keys["sheet"], inside(where, "sheet")),
        _share(camera.get("flare", "1 %"), in_camera("flare")),
        q.parse_number(camera["p"], in_camera("p"), least=0.7, most=1.0) if "p" in camera else None,
        _stops(camera["meter_off"], in_camera("meter_off")) if "meter_off" in camera else None,
        tuple(
            _flash_alone(row, in_flash("alone")) for row in _list(flash.get("alone", []), in_flash("alone"))
        ),
        tuple(
            _print(table, inside(where, f"print {number}")) for number, table in enumerate(prints, start=1)
        ),
    )


def read_scene(path: Path) -> Asked:
    """The scene of a file. Raises `InputError`, one line naming file, key and value."""
    file = read_toml(path, "a scene's file")
    where = file.head.of
    known = ("scene", "about", *_PLAN_KEYS, "wanted")
    keys = keys_of(file.table, known, where, _required("scene", '"garden in March"'))
    places = _places(keys["places"], inside(where, "places"))
    wanted = {
        name: q.parse_density_d(value, inside(where, "wanted")(name))
        for name, value in keys_of(keys.get("wanted", {}), list(places), inside(where, "wanted")).items()
    }
    return Asked(_scene(_word(keys["scene"], where("scene")), keys, places, where), wanted)


def _required(key: str, example: str) -> dict[str, str]:
    return {
        key: example,
        "index": "3",
        "set": '"EV 11"',
        "time": '"4 s"',
        "places": 'a table: [places], "garden bench" = "EV 9"',
    }


def _scene(name: str, keys: Mapping[str, Any], places: Mapping[str, float], where: Where) -> Scene:
    return Scene(
        name,
        places,
        q.parse_number(keys["index"], where("index"), least=0.01, most=10000),
        _ev(keys["set"], where("set")),
        q.parse_seconds(keys["time"], where("time"), least_s=0.001, most_s=36000.0),
        _ev(keys["mean"], where("mean")) if "mean" in keys else None,
        q.parse_seconds(keys.get("flash", "0 s"), where("flash"), most_s=_MOST_FLASH_S),
    )


def _places(table: object, where: Where) -> dict[str, float]:
    if not isinstance(table, dict) or not 1 <= len(table) <= _MOST_LISTED:
        raise InputError(f"{where('')}: give 1 to {_MOST_LISTED} places, for example 'garden bench' = 'EV 9'")
    return {name: _ev(value, where(name)) for name, value in table.items()}


def _print(table: object, where: Where) -> Kept:
    keys = keys_of(table, ("name", "batch", *_PLAN_KEYS), where, _required("name", '"sheet 41"'))
    rows = keys["places"]
    if not isinstance(rows, dict) or not 2 <= len(rows) <= _MOST_LISTED:
        example = '"garden bench" = ["EV 9", "1.31 D"]'
        raise InputError(f"{where('places')}: give two or more, for example {example}")
    pairs = {name: _pair(row, where(name), '["EV 9", "1.31 D"]') for name, row in rows.items()}
    places = {name: _ev(reading, where(name)) for name, (reading, _) in pairs.items()}
    return Kept(
        _scene(_word(keys["name"], where("name")), keys, places, where),
        _word(keys.get("batch", "1"), where("batch")),
        {name: q.parse_density_d(density, where(name)) for name, (_, density) in pairs.items()},
    )


def _sheet(table: object, where: Where) -> Sheet:
    keys = keys_of(table, _SHEET_KEYS, where, {"time": '"2 s"', "steps": '[["-5 stops", "2.04 D"], …]'})
    index = q.parse_number(keys["index"], where("index"), least=0.01, most=10000) if "index" in keys else None
    rows = _list(keys["steps"], where("steps"))
    steps = tuple(
        _step(row, index, where(f"steps, row {number}")) for number, row in enumerate(rows, start=1)
    )
    return Sheet(
        steps,
        q.parse_seconds(keys["time"], where("time"), least_s=0.001, most_s=36000.0),
        sum(step.lx_s for step in steps) / max(len(steps), 1),
        _share(keys.get("flare", ENLARGER_FLARE), where("flare")),
        q.parse_seconds(keys.get("flash", "0 s"), where("flash"), most_s=_MOST_FLASH_S),
        _stops(keys.get("light_off", "0.03 stop"), where("light_off")),
    )


def _step(row: object, index: float | None, what: str) -> Step:
    exposure, density = _pair(row, what, '["-5 stops", "2.04 D"] or ["0.08 lx s", "2.04 D"]')
    return Step(_step_lx_s(exposure, index, what), q.parse_density_d(density, what))


def _step_lx_s(written: object, index: float | None, what: str) -> float:
    """An exposure in lux-seconds, or in stops from a place that the meter was set for, at the sheet's
    index.
    """
    if isinstance(written, str) and re.search(r"l(x|ux)", written):
        lx_s = q.parse_lux_seconds(written, what)
        if lx_s <= 0:
            raise InputError(f"{what}: '{written}' is no light; leave a step without any out")
        return lx_s
    if index is None:
        raise InputError(
            f"{what}: '{written}' needs the sheet's index = 3, or write it in lux-seconds: '0.08 lx s'"
        )
    return place_lx_s(index, q.parse_stops(written, what))


def _flash_alone(row: object, what: str) -> tuple[float, float]:
    flash, density = _pair(row, what, '["4 s", "1.70 D"]')
    return q.parse_seconds(flash, what, least_s=0.001, most_s=_MOST_FLASH_S), q.parse_density_d(density, what)


def _ev(written: object, what: str) -> float:
    text = written.replace("−", "-").strip() if isinstance(written, str) else ""
    match = re.fullmatch(r"EV\s*(-?\d+(?:\.\d+)?)", text)
    if match is None:
        raise InputError(f"{what}: {written!r} is not a spot reading at ISO 100; write for example 'EV 9'")
    return q.parse_number(match[1], what, least=-10.0, most=24.0)


def _share(written: object, what: str) -> float:
    percent = q.parse_percent(written, what)
    if not 0 <= percent <= 20:
        raise InputError(f"{what}: '{written}' is out of range; allowed is 0 % to 20 % of the scene's mean")
    return percent / 100


def _stops(written: object, what: str) -> float:
    return q.parse_stops(written, what, least=0.001, most=1.0)


def _word(written: object, what: str) -> str:
    if not isinstance(written, str) or not written.strip():
        raise InputError(f"{what}: {written!r} is not a name; write it in quotes")
    return written.strip()


def _list(written: object, what: str) -> list[Any]:
    if not isinstance(written, list) or len(written) > _MOST_LISTED:
        raise InputError(f"{what}: a list of at most {_MOST_LISTED} is expected")
    return written


def _pair(row: object, what: str, example: str) -> tuple[object, object]:
    if not isinstance(row, list) or len(row) != 2:
        raise InputError(f"{what}: {row!r} must have two values, for example {example}")
    return row[0], row[1]
