"""What is written about a camera: meter readings, exposure indexes, lights, filters, the camera file."""

import re
from collections.abc import Callable, Iterable
from pathlib import Path

from footlight import quantities as q
from footlight.camera import meter
from footlight.camera.exposure import Film
from footlight.camera.extension import Extension
from footlight.camera.extension import racked as extension_of
from footlight.camera.settings import Settings, settings_of
from footlight.camera.subject import Condition
from footlight.camera.tolerances import Tolerances
from footlight.errors import InputError, field
from footlight.light.setup import Departure
from footlight.quantities.table import choice

_EV = re.compile(r"EV\s*([+-]?[\d./ ]+?)(?:\s+at\s+(EI.*))?", re.IGNORECASE)
_INDEX = re.compile(r"(?:EI|ISO)?\s*([+-]?[\d./]+)", re.IGNORECASE)
# The word of a tolerance as it is written -> its name and how it is read.
_OFFS: dict[str, tuple[str, Callable[[str, str], float]]] = {
    "reading": ("reading_stops", q.parse_stops),
    "index": ("index_stops", q.parse_stops),
    "stop": ("stop_stops", q.parse_stops),
    "draw": ("draw_mm", q.parse_length_mm),
    "opening": ("diameter_mm", q.parse_length_mm),
}
_EXAMPLES = (
    "'EV 12', 'EV 8 at EI 6', '20000 lx', '500 cd/m2', or what the meter proposes: '1/2 s, f/22, EI 8'"
)


def reading(text: str, what: str, c: float = meter.C_USUAL, k: float = meter.K_USUAL) -> meter.Scene:
    """A meter reading of any kind, with the meter's constants. Raises `InputError` for anything else."""
    written = text.replace("−", "-").strip()
    if ev := _EV.fullmatch(written):
        value = q.parse_number(ev[1], what, least=-20, most=30)
        return meter.of_ev(value, index(ev[2], what) if ev[2] else 100.0)
    if "," in written:
        return _proposed(written, what)
    if re.search(r"(lx|lux|fc)$", written):
        return meter.of_lux(q.parse_lux(written, what), c)
    if re.search(r"(cd/m\S*|nit)$", written):
        return meter.of_luminance(q.parse_luminance_cd_m2(written, what), k)
    raise InputError(f"{what}: '{text}' is not a meter reading; write for example {_EXAMPLES}")


def _proposed(text: str, what: str) -> meter.Scene:
    """`1/2 s, f/22, EI 8`, in any order."""
    seconds = stop = of_meter = None
    for part in (piece.strip() for piece in text.split(",")):
        if part.upper().startswith(("EI", "ISO")):
            of_meter = index(part, what)
        elif part.lower().startswith("f"):
            stop = q.parse_stop(part, what)
        else:
            seconds = q.parse_seconds(part, what)
    if seconds is None or stop is None or of_meter is None:
        raise InputError(
            f"{what}: '{text}' must have a time, a stop and the meter's index: '1/2 s, f/22, EI 8'"
        )
    return meter.of_exposure(seconds, stop, of_meter)


def index(text: str, what: str) -> float:
    """An exposure index from `EI 4` or `4`. Raises `InputError` for 0, and for anything else."""
    match = _INDEX.fullmatch(text.strip())
    if match is None:
        raise InputError(f"{what}: '{text}' is not an exposure index; write for example 'EI 4'")
    value = q.parse_number(match[1], what, least=-1e9)
    meter.check_index(value)
    return value


def condition(kind: str, text: str, what: str) -> Condition:
    """`yellow, 1 1/3 stop, R +20`: name, effect on the exposure, effect on contrast. Raises `InputError`."""
    name, stops, *rest = (part.strip() for part in text.split(","))
    if len(rest) > 1 or (rest and not rest[0].upper().startswith("R")):
        raise InputError(f"{what}: '{text}'; write name, stops and contrast: 'yellow, 1 1/3 stop, R +20'")
    range_r = q.parse_number(rest[0][1:].strip(), what, least=-220, most=220) if rest else 0.0
    return Condition(name, q.parse_stops(stops, what), range_r, kind=kind)


def camera_file(path: Path) -> Settings:
    """The printer's own camera file. Raises `InputError` for whatever it should not be."""
    from footlight.sequence.files import read_toml

    file = read_toml(path, "a camera file")
    return settings_of(file.table, file.head.of)


def extension(
    lens: str | None,
    draw: str | None,
    image: str | None,
    subject: str | None,
    pupils: str,
    off_mm: float | None = None,
) -> Extension:
    """How far the lens is racked out. Raises `InputError`."""
    return extension_of(
        _length_mm(lens, "lens"),
        _length_mm(draw, "draw"),
        _length_mm(image, "image"),
        _length_mm(subject, "subject"),
        q.parse_number(pupils, field("pupils"), least=0.2, most=5),
        off_mm,
    )


def _length_mm(text: str | None, name: str) -> float | None:
    return q.parse_length_mm(text, field(name)) if text else None


def tolerances(offs: Iterable[str]) -> Tolerances:
    """How well things are known: `reading 1/4 stop`. Raises `InputError` for a word that is none."""
    values: dict[str, float] = {}
    for text in offs:
        word, _, value = text.strip().partition(" ")
        name, read = _OFFS[choice(word, list(_OFFS), field("offs"))]
        values[name] = read(value, f"{field('offs')}: {word}")
        if values[name] < 0:
            raise InputError(
                f"{field('offs')}: '{text}' is less than none; write for example 'reading 1/4 stop'"
            )
    return Tolerances(**values)


def film(ei: str, ei_time: str, p: str | None, p_off: str, iso_range: str | None) -> Film:
    """The paper in the holder, from what was written of it. Raises InputError."""
    departure = None
    if p is not None:
        off = q.parse_number(p_off, field("p_off"), most=0.3)
        departure = Departure(q.parse_number(p, field("p"), least=0.5, most=1.2), off)
    held_r = q.parse_number(iso_range.removeprefix("R").strip(), field("iso_range")) if iso_range else None
    return Film(index(ei, field("ei")), q.parse_seconds(ei_time, field("ei_time")), departure, held_r)


def conditions(path: Path | None, light: str | None, filter_: str | None) -> tuple[Condition, ...]:
    """Subject light and filter: each with its effect, or by its name in the file. Raises InputError."""
    settings = camera_file(path) if path else None
    known = []
    for kind, text in (("light", light), ("filter", filter_)):
        if text is None:
            continue
        if "," in text:
            known.append(condition(kind, text, field(kind)))
        elif settings is None:
            raise InputError(
                f"{field(kind)}: '{text}' says nothing of its effect; write '{text}, 1 1/3 stop', or give the"
                f" camera file that has it with {field('path')}"
            )
        else:
            known.append(settings.light(text) if kind == "light" else settings.filter(text))
    return tuple(known)
