"""What a record of a controller can say at all. One that says more is kept as it came, and not believed.

A check sum tells that a record is as it was written, not that what wrote it was well.
"""

from typing import Any

_TEXT_CHARS = 64
_MOST_TIME_MS = 1 << 40
# Field -> least and most; for any other whole number see `_OTHER`.
_LIMITS = {
    "run": (0, (1 << 31) - 1),
    "step": (0, 999),
    "sheet": (0, 9_999_999),
    "sheets": (0, 999),
    "slot": (0, 99),
    "unix_s": (0, 1 << 40),
    "t": (0, _MOST_TIME_MS),
}
_OTHER = (-_MOST_TIME_MS, _MOST_TIME_MS)


def is_plausible(record: dict[str, Any]) -> bool:
    """Could a controller that is well have written this?"""
    return all(_fits(key, value) for key, value in record.items())


def _fits(key: str, value: object) -> bool:
    if isinstance(value, str):
        return len(value) <= _TEXT_CHARS and value.isprintable()
    if isinstance(value, bool) or not isinstance(value, int):
        return False
    least, most = _LIMITS.get(key, (0, _MOST_TIME_MS) if key.endswith("_ms") else _OTHER)
    return least <= value <= most
