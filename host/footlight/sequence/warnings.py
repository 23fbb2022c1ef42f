"""What a printer should know of a sequence that is allowed and may still not be meant."""

from typing import Any

from footlight.quantities import Sheet, format_duration, format_sheet
from footlight.sequence.exposures import Arithmetic
from footlight.sequence.model import Bath, ByHand, Light, Sequence, UntilPressed
from footlight.sequence.spans import Span, timeline
from footlight_core.program import LIGHT as LIGHT_KIND

_WINDOW_MS = 600_000


def warnings_of(sequence: Sequence, program: dict[str, Any], lights: list[Arithmetic]) -> list[str]:
    """A sentence each."""
    found = [f"Step {light.step_number} '{light.name}': {note}" for light in lights for note in light.notes]
    return [*_once(found), *_unsettled(sequence), *small_trays(sequence), *_spent(sequence), *_hot(program)]


def _once(found: list[str]) -> list[str]:
    """The same note on many lights (a strip) is said once, for the first of them."""
    kept: dict[str, str] = {}
    for sentence in found:
        kept.setdefault(sentence.partition("': ")[2], sentence)
    return list(kept.values())


def _unsettled(sequence: Sequence) -> list[str]:
    wet = False
    for step in sequence.steps:
        if isinstance(step, Light) and wet and not step.settle_ms:
            return [
                f"Step {step.number} '{step.name}' lights a wet sheet at once: give it settle, for example"
                ' settle = "10 s", to drain and lie flat.'
            ]
        if isinstance(step, Light):
            return []
        wet = wet or isinstance(step, Bath | ByHand | UntilPressed)
    return []


def small_trays(sequence: Sequence) -> list[str]:
    """Trays in which the sheet cannot lie flat, a sentence for each size."""
    if sequence.sheet is None:
        return []
    small: dict[str, list[str]] = {}
    for tray in sequence.trays:
        if tray.size and not _lies_in(sequence.sheet, tray.size):
            small.setdefault(format_sheet(tray.size), []).append(f"'{tray.name}'")
    return [
        f"{_trays(names)} {size}; the sheet is {format_sheet(sequence.sheet)}."
        for size, names in small.items()
    ]


def _trays(names: list[str]) -> str:
    return f"Tray {names[0]} takes" if len(names) == 1 else f"Trays {', '.join(names)} take"


def _lies_in(sheet: Sheet, tray: Sheet) -> bool:
    sides = zip(
        sorted((sheet.width_mm, sheet.height_mm)), sorted((tray.width_mm, tray.height_mm)), strict=True
    )
    return all(inner <= outer for inner, outer in sides)


def _spent(sequence: Sequence) -> list[str]:
    return [
        f"Tray '{tray.name}' lasts {tray.life_sheets} {_sheets(tray.life_sheets)}; this batch has"
        f" {sequence.sheets}: change it on the way."
        for tray in sequence.trays
        if 0 < tray.life_sheets < sequence.sheets
    ]


def _sheets(count: int) -> str:
    return "sheet" if count == 1 else "sheets"


def _hot(program: dict[str, Any]) -> list[str]:
    """The first light that the controller will hold back until the lamp has cooled, if nobody waits.

    As the controller counts: an exposure that ended within the last ten minutes counts whole.
    """
    lit: list[Span] = []
    for span in timeline(program, judged="least"):
        if span.kind != LIGHT_KIND:
            continue
        step = program["steps"][span.step_number - 1]
        most_ms = program["lamps"][step["lamp"]]["window_ms"]
        recent = [one for one in lit if span.start_ms - one.end_ms < _WINDOW_MS]
        used_ms = sum(one.end_ms - one.start_ms for one in [*recent, span])
        if used_ms > most_ms:
            return [_hot_text(span, program, used_ms, most_ms)]
        lit.append(span)
    return []


def _hot_text(span: Span, program: dict[str, Any], used_ms: int, most_ms: int) -> str:
    sheet = f" of sheet {span.sheet}" if program["sheets"] > 1 else ""
    return (
        f"Step {span.step_number} '{span.name}'{sheet} brings the lamps to {format_duration(used_ms)} in ten"
        f" minutes; allowed is {format_duration(most_ms)}: unless you are slower than planned, the controller"
        " shows COOL and waits."
    )
