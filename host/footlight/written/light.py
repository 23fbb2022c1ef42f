"""An exposure in one text: `6 s, 620 mm, f/11, lens 80 mm, nd 0.3`."""

import re
from collections.abc import Callable
from dataclasses import replace
from typing import NamedTuple

from footlight import quantities as q
from footlight.errors import InputError
from footlight.light.setup import Arrangement

THE_LAMP = "usual"


class Parts(NamedTuple):
    """What a text says; None where it does not say."""

    seconds: float | None = None
    height_mm: float | None = None
    stop: q.FStop | None = None
    focal_mm: float | None = None
    nd_density_d: float | None = None
    source_mm: float | None = None
    filter: str | None = None
    lamp: str | None = None
    lux: float | None = None
    dose_lux_s: float | None = None
    dead_ms: int | None = None


# A part that begins with a word, and the reader of what follows it.
_WORDS: dict[str, tuple[str, Callable[[str, str], object]]] = {
    "lens": ("focal_mm", q.parse_length_mm),
    "source": ("source_mm", q.parse_length_mm),
    "dead": ("dead_ms", lambda text, what: q.parse_duration_ms(text, what, most_ms=5000)),
    "nd": ("nd_density_d", lambda text, what: q.parse_number(text.removesuffix("D"), what, most=6)),
    "filter": ("filter", lambda text, what: None if text == "none" else text),
    "lamp": ("lamp", lambda text, what: text),
}
# A part that is known by its unit.
_UNITS: list[tuple[str, str, Callable[[str, str], object]]] = [
    (r"[fFƒ]\s*/?\s*[\d.].*", "stop", q.parse_stop),
    (r".*\d\s*(mm|cm|m|in|inch|inches|ft|\")", "height_mm", q.parse_length_mm),
    (r".*\d\s*(lx|lux)[ ·*-]?s(econds?)?", "dose_lux_s", q.parse_lux_seconds),
    (r".*\d\s*(k?lx|lux|fc)", "lux", q.parse_lux),
    (r".*", "seconds", q.parse_seconds),
]


def parts(text: str, what: str) -> Parts:
    """Read the parts of an exposure; raises `InputError` naming the part that cannot be read, or is twice."""
    found: dict[str, object] = {}
    for part in (" ".join(piece.split()) for piece in text.split(",")):
        if not part:
            raise InputError(f"{what}: '{text}' has an empty part; write for example '6 s, 620 mm, f/11'")
        key, value = _part(part, what)
        if key in found:
            raise InputError(f"{what}: '{text}' says '{part}' after another of its kind; write each once")
        found[key] = value
    return Parts(**found)  # pyright: ignore[reportArgumentType]


def _part(part: str, what: str) -> tuple[str, object]:
    word, _, rest = part.partition(" ")
    if word.lower() in _WORDS and rest:
        key, reader = _WORDS[word.lower()]
        return key, reader(rest.strip(), f"{what}: {word.lower()}")
    if re.fullmatch(r"[+-]?[\d./ ]+", part):
        raise InputError(
            f"{what}: '{part}' has no unit; write for example '6 s' (time), '620 mm' (height), 'f/11'"
        )
    for pattern, key, reader in _UNITS:
        if re.fullmatch(pattern, part):
            return key, reader(part, what)
    raise AssertionError("the last pattern takes everything")


def exposure(text: str, what: str) -> tuple[float, Arrangement]:
    """Seconds [s] and arrangement of a whole exposure; raises `InputError` where time or height"
    " is missing."""
    said = parts(text, what)
    if said.seconds is None:
        raise InputError(f"{what}: '{text}' has no time; write for example '6 s, 620 mm, f/11'")
    return said.seconds, arrangement(said, text, what)


def arrangement(said: Parts, text: str, what: str) -> Arrangement:
    """The arrangement that a text says whole: a lens where there is a stop, else a bare lamp."""
    if said.height_mm is None:
        raise InputError(f"{what}: '{text}' has no height; write for example '620 mm, f/11'")
    if said.focal_mm is not None and said.stop is None:
        raise InputError(
            f"{what}: '{text}' has a lens but no stop; write for example '620 mm, f/11, lens 80 mm'"
        )
    return Arrangement(
        lamp=said.lamp or THE_LAMP,
        lens=_lens_name(said.focal_mm) if said.stop else None,
        focal_mm=said.focal_mm,
        stop=said.stop,
        height_mm=said.height_mm,
        filter=said.filter,
        nd_density_d=said.nd_density_d or 0.0,
        source_mm=said.source_mm or 0.0,
    )


def changed(at: Arrangement, text: str, what: str) -> Arrangement:
    """`at` with the parts that a text names; what it does not name stays."""
    said = parts(text, what)
    if said.seconds is not None:
        raise InputError(f"{what}: '{text}' has a time; write only what changes, for example '800 mm, f/8'")
    if said.stop is not None and at.lens is None:
        raise InputError(f"{what}: '{text}' has a stop but the exposure found good has none (a bare lamp)")
    news: dict[str, object] = {
        key: getattr(said, key)
        for key in ("height_mm", "stop", "focal_mm", "nd_density_d", "source_mm", "lamp")
        if getattr(said, key) is not None
    }
    if said.focal_mm is not None and said.focal_mm != at.focal_mm:
        news["lens"] = _lens_name(said.focal_mm)
    if "filter" in text.lower().split() or said.filter is not None:
        news["filter"] = said.filter
    return replace(at, **news)  # pyright: ignore[reportArgumentType]


def _lens_name(focal_mm: float | None) -> str:
    return f"{focal_mm:g} mm" if focal_mm else "the lens"
