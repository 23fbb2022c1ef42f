"""What is written about a camera: meter readings, exposure indexes, lights, filters, the camera file."""

import re
from pathlib import Path

from footlight import quantities as q
from footlight.camera import meter
from footlight.camera.settings import Settings, settings_of
from footlight.camera.subject import Condition
from footlight.errors import InputError

_EV = re.compile(r"EV\s*([+-]?[\d./ ]+?)(?:\s+at\s+(EI.*))?", re.IGNORECASE)
_INDEX = re.compile(r"(?:EI|ISO)?\s*([+-]?[\d./]+)", re.IGNORECASE)
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
