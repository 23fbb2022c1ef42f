"""Readings and racked-out lenses as they are written on the command line."""

import re
from pathlib import Path

from footlight import quantities as q
from footlight.camera import meter
from footlight.camera.extension import INFINITY, Extension, from_draw, from_sizes
from footlight.camera.settings import Settings, settings_of
from footlight.errors import InputError

_EV = re.compile(r"EV\s*([+-]?[\d./ ]+?)(?:\s+at\s+(EI.*))?", re.IGNORECASE)
_INDEX = re.compile(r"(?:EI|ISO)?\s*([+-]?[\d./]+)", re.IGNORECASE)
_EXAMPLES = (
    "'EV 12', 'EV 8 at EI 6', '20000 lx', '500 cd/m2', or what the meter proposes: '1/2 s, f/22, EI 8'"
)


def reading(text: str, c: str | None = None, k: str | None = None, what: str = "READING") -> meter.Scene:
    """A meter reading of any kind. Raises `InputError` for anything else."""
    written = text.replace("−", "-").strip()
    if ev := _EV.fullmatch(written):
        value = q.parse_number(ev[1], what, least=-20, most=30)
        return meter.of_ev(value, index(ev[2], what) if ev[2] else 100.0)
    if "," in written:
        return _proposed(written, what)
    if re.search(r"(lx|lux|fc)$", written):
        constant = meter.C_USUAL if c is None else q.parse_number(c, "-C")
        return meter.of_lux(q.parse_lux(written, what), constant)
    if re.search(r"(cd/m\S*|nit)$", written):
        constant = meter.K_USUAL if k is None else q.parse_number(k, "-K")
        return meter.of_luminance(q.parse_luminance_cd_m2(written, what), constant)
    raise InputError(f"{what}: '{text}' is not a meter reading; write for example {_EXAMPLES}")


def _proposed(text: str, what: str) -> meter.Scene:
    """`1/2 s, f/22, EI 8`, in any order."""
    seconds = stop = found = None
    for part in (piece.strip() for piece in text.split(",")):
        if part.upper().startswith(("EI", "ISO")):
            found = index(part, what)
        elif part.lower().startswith("f"):
            stop = q.parse_stop(part, what)
        else:
            seconds = q.parse_seconds(part, what)
    if seconds is None or stop is None or found is None:
        raise InputError(
            f"{what}: '{text}' must have a time, a stop and the meter's index: '1/2 s, f/22, EI 8'"
        )
    return meter.of_exposure(seconds, stop, found)


def index(text: str, what: str) -> float:
    """An exposure index from `EI 4` or `4`. Raises `InputError` for 0, and for anything else."""
    found = _INDEX.fullmatch(text.strip())
    if found is None:
        raise InputError(f"{what}: '{text}' is not an exposure index; write for example 'EI 4'")
    value = q.parse_number(found[1], what, least=-1e9)
    meter.check_index(value)
    return value


def extension(
    lens: str | None,
    draw: str | None,
    image: str | None,
    subject: str | None,
    pupils: str,
    off_mm: float | None = None,
) -> Extension:
    """A racked-out lens from draw and focal length, or from image and object size; infinity from neither."""
    ratio = q.parse_number(pupils, "--pupils", least=0.2, most=5)
    if draw and (image or subject):
        raise InputError("--draw, --image: give the draw, or image and object size, not both")
    if draw:
        if lens is None:
            raise InputError(
                "--lens is missing: a draw says nothing without the focal length, '--lens 150 mm'"
            )
        return from_draw(q.parse_length_mm(lens, "--lens"), q.parse_length_mm(draw, "--draw"), ratio, off_mm)
    if image and subject:
        return from_sizes(q.parse_length_mm(image, "--image"), q.parse_length_mm(subject, "--object"), ratio)
    if image or subject:
        raise InputError("--image, --object: both are needed, for example --image '80 mm' --object '120 mm'")
    return INFINITY


def settings(path: Path) -> Settings:
    """The camera file. Raises `InputError` for whatever it should not be."""
    from footlight.sequence.files import read_toml

    found = read_toml(path, "a camera file")
    return settings_of(found.table, found.head.of)
