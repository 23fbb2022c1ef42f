"""How times are written in results."""

from footlight.notebook.dates import date_text, when_text
from footlight.quantities.signs import MINUS

__all__ = ["bath_text", "date_text", "light_text", "range_text", "signed_text", "when_text"]


def bath_text(duration_ms: int | None) -> str:
    """A bath's time [ms] to a tenth of a second: `2:03.5`, `45 s`; a dash when it is not known."""
    return "–" if duration_ms is None else _duration(round(duration_ms, -2))


def light_text(light_ms: int | None) -> str:
    """A light's time [ms] to a hundredth of a second."""
    return "–" if light_ms is None else f"{light_ms / 1000:.2f} s"


def range_text(least_ms: int, most_ms: int) -> str:
    """Light given [ms], with its bounds where a power cut hid it."""
    if least_ms == most_ms:
        return light_text(least_ms)
    return f"{least_ms / 1000:.2f}–{most_ms / 1000:.2f} s"


def signed_text(difference_ms: int | None) -> str:
    """A difference of times [ms], with its sign; nothing below a tenth of a second."""
    if difference_ms is None:
        return "–"
    rounded_ms = round(difference_ms, -2)
    if rounded_ms == 0:
        return "0"
    return ("+" if rounded_ms > 0 else MINUS) + _duration(abs(rounded_ms))


def _duration(duration_ms: int) -> str:
    # Only here: a list of sheets has none, and shall not wait for the reader of quantities.
    from footlight.quantities.duration import format_duration

    return format_duration(duration_ms)
