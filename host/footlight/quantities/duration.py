"""Durations: `1:30`, `1:02:03`, `90 s`, `1 min 30 s`, `250 ms`, `1/2 s`."""

import re

from footlight.errors import InputError
from footlight.quantities.number import NUMBER, as_text, unsigned

_EXAMPLE = "1:30"
_UNITS_S = {"h": 3600.0, "min": 60.0, "s": 1.0, "ms": 0.001}
_SPELLINGS = {
    "hour": "h",
    "hours": "h",
    "minute": "min",
    "minutes": "min",
    "sec": "s",
    "second": "s",
    "seconds": "s",
} | {unit: unit for unit in _UNITS_S}
_CLOCK = r"(?:(\d+):)?(\d+):(\d\d(?:\.\d+)?)"
_PART = rf"({NUMBER})\s*([A-Za-z]+)\s*"
_LONGEST_S = 100 * 3600.0


def parse_seconds(written: object, what: str, *, least_s: float = 0.0, most_s: float = _LONGEST_S) -> float:
    """A duration [s], not rounded. Raises `InputError` outside `least_s` to `most_s` [s], both included."""
    text = as_text(written, what, _EXAMPLE)
    clock = re.fullmatch(_CLOCK, text)
    seconds = _of_clock(clock, text, what) if clock else _of_parts(text, what)
    if not least_s <= seconds <= most_s:
        allowed = f"{format_seconds(least_s)} to {format_seconds(most_s)}"
        raise InputError(f"{what}: '{text}' is out of range; allowed is {allowed}")
    return seconds


def parse_duration_ms(
    written: object, what: str, *, least_ms: int = 0, most_ms: int = int(_LONGEST_S * 1000)
) -> int:
    """A duration [ms], rounded to the millisecond. Raises `InputError` outside the limits [ms]."""
    seconds = parse_seconds(written, what, least_s=least_ms / 1000, most_s=most_ms / 1000)
    duration_ms = round(seconds * 1000)
    if duration_ms == 0 and seconds > 0:
        raise InputError(f"{what}: '{written}' is shorter than a millisecond; write for example '250 ms'")
    return duration_ms


def _of_clock(clock: re.Match[str], text: str, what: str) -> float:
    hours, minutes, seconds = float(clock[1] or 0), float(clock[2]), float(clock[3])
    if seconds >= 60 or (clock[1] and minutes >= 60):
        raise InputError(f"{what}: '{text}' has 60 or more after a colon; write for example '1:30' or '90 s'")
    return hours * 3600 + minutes * 60 + seconds


def _of_parts(text: str, what: str) -> float:
    """The sum of `1 min 30 s`: each unit once, the largest first."""
    total_s, rest, last_unit_s = 0.0, text, float("inf")
    while rest:
        part = re.match(_PART, rest)
        unit = _SPELLINGS.get(part[2].lower()) if part else None
        if part is None or unit is None or _UNITS_S[unit] >= last_unit_s:
            raise _not_a_duration(text, what)
        last_unit_s = _UNITS_S[unit]
        total_s += unsigned(part[1]) * last_unit_s
        rest = rest[part.end() :]
    return total_s


def _not_a_duration(text: str, what: str) -> InputError:
    examples = "for example '1:30', '90 s', '1 min 30 s' or '250 ms'"
    if text.startswith("-"):
        return InputError(f"{what}: '{text}' is negative; write a duration, {examples}")
    if re.fullmatch(NUMBER, text):
        return InputError(f"{what}: '{text}' has no unit; write a duration, {examples}")
    if re.search(r"\d,\d", text):
        return InputError(f"{what}: '{text}' has a comma; write decimals with a point, for example '6.5 s'")
    if re.fullmatch(r"\d+:\d", text):
        return InputError(f"{what}: '{text}' needs two digits after the colon, for example '1:05'")
    return InputError(f"{what}: '{text}' is not a duration in h, min, s or ms; write {examples}")


def format_duration(duration_ms: int) -> str:
    """A duration [ms], exact, that `parse_duration_ms` reads back: `6.5 s`, `1:30`, `2:00:05`."""
    whole_s, rest_ms = divmod(duration_ms, 1000)
    fraction = f".{rest_ms:03d}".rstrip("0") if rest_ms else ""
    if whole_s < 60:
        return f"{whole_s}{fraction} s"
    minutes, seconds = divmod(whole_s, 60)
    if minutes < 60:
        return f"{minutes}:{seconds:02d}{fraction}"
    return f"{minutes // 60}:{minutes % 60:02d}:{seconds:02d}{fraction}"


def format_seconds(seconds: float) -> str:
    """An exposure time [s] to within 0.01 stop: `10.0 s`, `5.04 s`, `117 s`, `0.125 s`.

    More figures would pretend to a certainty that is not there.
    """
    if abs(seconds) >= 99.95:
        return f"{seconds:.0f} s"
    if abs(seconds) >= 8:
        return f"{seconds:.1f} s"
    figures = f"{seconds:#.3g}" if abs(seconds) >= 0.001 else f"{seconds:.4f}"
    whole, _, decimals = figures.partition(".")
    return f"{whole}.{decimals[:1]}{decimals[1:].rstrip('0')} s"


def format_clock(time_ms: int) -> str:
    """m:ss, rounded to the second; h:mm:ss from an hour on."""
    seconds = (time_ms + 500) // 1000
    minutes, seconds = divmod(seconds, 60)
    if minutes < 60:
        return f"{minutes}:{seconds:02d}"
    return f"{minutes // 60}:{minutes % 60:02d}:{seconds:02d}"
