"""Readings of strips in words and tables."""

import json
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from footlight.errors import act
from footlight.notebook.sheets.readings import Kept
from footlight.quantities import format_seconds
from footlight.views.table import Grid
from footlight.views.times import date_text

if TYPE_CHECKING:
    from footlight.strips.preflash import FlashReading
    from footlight.strips.result import Reading, Taken


def strip_lines(reading: "Reading", width: int | None = None) -> list[str]:
    """Advice, causes, and density by step and band."""
    return [*advice_words(reading), "", *strip_grid(reading).lines(width)]


def advice_words(reading: "Reading") -> list[str]:
    """Advice and causes, a sentence each."""
    return [*reading.advice.words, *(f"Cause: {text}." for text in reading.advice.causes)]


def strip_grid(reading: "Reading") -> Grid:
    """Density by step and band."""
    head = ("step", "dose", *(f"{name} D" for name in reading.bands))
    rows = []
    for cell in reading.band(reading.bands[0]):
        row = [step for step in reading.steps if step.step == cell.step]
        dose = "zero" if not cell.dose_s else format_seconds(cell.dose_s)
        rows.append((f"{cell.step}", dose, *(f"{step.density_d:.3f}" for step in row)))
    return Grid(head, rows)


def flash_lines(reading: "FlashReading", width: int | None = None) -> list[str]:
    """Words, and density by flash and band."""
    head = ("step", "flash", *(f"{name} D" for name in reading.bands))
    rows = [
        (
            f"{place}",
            format_seconds(band.flash_s) if band.flash_s else "none",
            *(
                f"{density:.3f} ± {doubt:.3f}"
                for density, doubt in zip(band.density_d, band.uncertainty_d, strict=True)
            ),
        )
        for place, band in enumerate(reading.flashes)
    ]
    return [*reading.words, "", *Grid(head, rows).lines(width)]


def taken_lines(taken: "Taken | None") -> list[str]:
    """What came from the notebook, and how the sheet went."""
    return [] if taken is None else ["", "Taken:", *(f"  {text}" for text in (*taken.said, *taken.run_words))]


def kept_lines(number: int | None, sheet: int | None) -> list[str]:
    """That it was kept, if it was."""
    of = f" of sheet {sheet}" if sheet is not None else ""
    return [] if number is None else [f"Kept as reading {number}{of}; {act('undo')} takes it back."]


def list_lines(kept: Sequence[Kept], width: int | None = None) -> list[str]:
    """A line for each reading that was kept."""
    return list_grid(kept).lines(width)


def list_grid(kept: Sequence[Kept]) -> Grid:
    """A row for each reading that was kept."""
    rows = [
        (
            f"{reading.id}",
            reading.kind,
            "–" if reading.sheet is None else f"{reading.sheet}",
            date_text(reading.done_unix_s),
            _says(reading),
        )
        for reading in kept
    ]
    return Grid(("reading", "kind", "sheet", "read", "what it says"), rows)


def _says(reading: Kept) -> str:
    if reading.kind != "print":
        return "no safe dose" if reading.dose_s is None else f"give {format_seconds(reading.dose_s)}"
    values = (("black", reading.d_max), ("veil", reading.veil_d), ("mottle", reading.mottle_d))
    return ", ".join(f"{name} {value:.3f} D" for name, value in values if value is not None)


def advice_lines(reading: Kept) -> list[str]:
    """Advice of one that was kept, and what it was taken from."""
    result = json.loads(reading.result)
    taken = result.get("taken") or {}
    words = (result.get("advice") or result).get("words", [])
    return ["", *words, *taken.get("said", []), *taken.get("run_words", [])]


def kept_as_dict(reading: Kept) -> dict[str, Any]:
    """One that was kept, for a script."""
    return {
        "reading": reading.id,
        "kind": reading.kind,
        "sheet": reading.sheet,
        "setup": reading.setup,
        "dose_s": reading.dose_s,
        "read_unix_s": reading.done_unix_s,
        "result": json.loads(reading.result),
    }


def as_dict(reading: "Reading | FlashReading") -> dict[str, Any]:
    """Of a strip, for a script."""
    import msgspec

    return msgspec.to_builtins(reading)
