"""Tonight, on one screen."""

from typing import Any

from footlight.actions.see_tonight import Tonight
from footlight.quantities.spans import format_spans
from footlight.views import baths
from footlight.views.times import date_text


def lines(tonight: Tonight, width: int | None = None) -> list[str]:
    """The controller, the baths, the sheets that wait, and what comes next."""
    return [controller(tonight), *_baths(tonight, width), waiting(tonight), f"next: {tonight.next_act}"]


def as_dict(tonight: Tonight) -> dict[str, Any]:
    """For a script."""
    used = tonight.slots.used if tonight.slots else None
    return {
        "slots": None if used is None else [{"slot": slot.number, "title": slot.title} for slot in used],
        "trouble": tonight.trouble,
        "baths": [bath.bath.name for bath in tonight.baths.shelf.in_use] if tonight.baths else [],
        "waiting": list(tonight.waiting.sheets) if tonight.waiting else [],
        "next": tonight.next_act,
    }


def controller(tonight: Tonight) -> str:
    """The controller, and what it holds."""
    if tonight.slots is None:
        return f"controller: {tonight.trouble or 'none is plugged in'}"
    held = ", ".join(f"{slot.number} {slot.title or 'damaged'}" for slot in tonight.slots.used)
    return f"controller: {held or 'holds nothing yet'}"


def _baths(tonight: Tonight, width: int | None) -> list[str]:
    return baths.lines(tonight.baths, width) if tonight.baths else ["baths: none written down"]


def waiting(tonight: Tonight) -> str:
    """The sheets that are flashed and wait."""
    if tonight.waiting is None:
        return "sheets: none is flashed and waits"
    since = date_text(tonight.waiting.oldest_unix_s)
    return f"sheets: {format_spans(tonight.waiting.sheets)} are flashed and wait, the first since {since}"
