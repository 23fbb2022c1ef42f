"""The plan of a sequence as a printer reads it: trays, steps with times, the light's arithmetic, totals."""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any, assert_never

from footlight.quantities import (
    format_age_h,
    format_clock,
    format_duration,
    format_length_mm,
    format_seconds,
    format_sheet,
)
from footlight.sequence import model
from footlight.sequence.compiler import Compiled
from footlight.sequence.hazards import hazards_of
from footlight.sequence.spans import Judged, Span, timeline
from footlight.sequence.totals import Totals, has_judged, totals
from footlight.views.table import Row, fitted, row_lines, without_empty

if TYPE_CHECKING:
    from footlight.baths.forecast import Forecast, Outlook

_WIDTH = 100
_INDENT = "  "


def plan_lines(
    compiled: Compiled, judged: Judged = "middle", baths: "Forecast | None" = None, width: int | None = None
) -> list[str]:
    """The plan as lines of text; `judged` says when steps judged by eye end. baths: what the notebook says of
    them. width: of the terminal in characters, None for as wide as it comes."""
    sequence = compiled.sequence
    inner = None if width is None else width - len(_INDENT)
    sections = [
        *_head(compiled),
        *_section("Trays", _trays(sequence, inner)),
        *_section("Steps", _steps(compiled, judged, inner)),
        *_section("Times, if nobody waits", _times(compiled, totals(compiled, judged), judged)),
        *_section("Hazards", _wrapped(hazards_of(sequence), inner)),
        *_section("Mind", _wrapped(compiled.warnings, inner)),
        *_section("Baths, from the notebook", _baths(baths, inner) if baths else []),
    ]
    return [part for line in sections for part in fitted(line, width)]


def plan_as_dict(
    compiled: Compiled, judged: Judged = "middle", baths: "Forecast | None" = None
) -> dict[str, Any]:
    """The plan for a script; units are in the keys. Spans of a batch are those of all its sheets."""
    sequence = compiled.sequence
    return {
        "file": str(sequence.path),
        "title": sequence.title,
        "name": sequence.name,
        "sheets": sequence.sheets,
        "sha256": compiled.sha256,
        "length_bytes": len(compiled.data),
        "trays": [_tray_dict(tray) for tray in _in_use(sequence)],
        "steps": compiled.program["steps"],
        "spans": [vars(span) for span in timeline(compiled.program, judged)],
        "lights": [light.as_dict() for light in compiled.arithmetic],
        "setups": [setup.name for setup in sequence.setups_used],
        "totals": totals(compiled, judged).as_dict(),
        "hazards": hazards_of(sequence),
        "warnings": compiled.warnings,
        **(_baths_dict(baths) if baths else {}),
    }


def _section(title: str, lines: Iterable[str]) -> list[str]:
    """A titled section; nothing where it has no lines."""
    indented = [f"{_INDENT}{line}".rstrip() for line in lines]
    return ["", title, *indented] if indented else []


def _wrapped(sentences: Iterable[str], width: int | None) -> list[str]:
    widest = _WIDTH if width is None else min(width, _WIDTH)
    return [line for sentence in sentences for line in fitted(sentence, widest)]


def _head(compiled: Compiled) -> list[str]:
    sequence = compiled.sequence
    batch = f", a batch of {sequence.sheets} sheets" if sequence.sheets > 1 else ""
    size = f", {format_sheet(sequence.sheet)}" if sequence.sheet else ""
    lines = [
        f"{sequence.title}  {sequence.name}{batch}{size}",
        f"{len(sequence.steps)} steps, {len(compiled.data)} bytes, hash {compiled.sha256[:8]}",
    ]
    return [*lines, sequence.about] if sequence.about else lines


def _in_use(sequence: model.Sequence) -> list[model.Tray]:
    """Trays in the order in which the sheet comes to them, then those that it never comes to."""
    used = [tray for step in sequence.steps if (tray := _tray_of(step))]
    return list(dict.fromkeys([*used, *sequence.trays]))


def _tray_of(step: model.AnyStep) -> model.Tray | None:
    if isinstance(step, model.Bath | model.ByHand | model.UntilPressed):
        return step.tray
    return None


def _trays(sequence: model.Sequence, width: int | None) -> list[str]:
    used = {tray.name for step in sequence.steps if (tray := _tray_of(step))}
    rows = [
        (tray.place or "-", tray.tongs or "-", tray.bath, _tray_notes(tray, tray.name in used))
        for tray in _in_use(sequence)
    ]
    return _left_table(("place", "tongs", "bath", ""), rows, width)


def _tray_notes(tray: model.Tray, used: bool) -> str:
    life = "fresh for each sheet" if tray.life_sheets == 1 else f"lasts {tray.life_sheets} sheets"
    notes = [
        format_sheet(tray.size) if tray.size else "",
        life if tray.life_sheets else "",
        "" if used else "not used by any step",
    ]
    return ", ".join(note for note in notes if note)


def _tray_dict(tray: model.Tray) -> dict[str, Any]:
    return {
        "name": tray.name,
        "place": tray.place,
        "tongs": tray.tongs,
        "bath": tray.bath,
        "formula": tray.formula,
        "life_sheets": tray.life_sheets,
        "size": tray.size.name if tray.size else None,
    }


def _steps(compiled: Compiled, judged: Judged, width: int | None) -> list[str]:
    """One row a step; under it, indented, what does not fit in a column."""
    sequence = compiled.sequence
    first = [span for span in timeline(compiled.program, judged) if span.sheet == 1]
    pairs = list(zip(sequence.steps, first, strict=True))
    head = ("", "start", "length", "lift", "tray", "step", "shown", "")
    rows = row_lines(
        *without_empty(head, [_row(step, span, compiled) for step, span in pairs]), width, numbers_right=False
    )
    lines, said = rows[0] if rows else [], ""
    for row, (step, _) in zip(rows[1:], pairs, strict=True):
        below = _below(step, compiled)
        # The lights of a strip share their setup: it is said once.
        if isinstance(step, model.Light):
            said, below = below[0], below[1:] if below[0] == said else below
        lines += [*row, *(f"    {more}" for more in below)]
    return lines


def _row(step: model.AnyStep, span: Span, compiled: Compiled) -> tuple[str, ...]:
    tray = _tray_of(step)
    place = f"{tray.place} {tray.tongs}".strip() if tray else ""
    lift = format_duration(span.lift_ms) if span.lift_ms else ""
    start, length = format_clock(span.start_ms), _length(step, compiled)
    return (f"{step.number}", start, length, lift, place, step.name, step.show, _manner(step))


def _length(step: model.AnyStep, compiled: Compiled) -> str:
    match step:
        case model.Light():
            light = compiled.light_at(step.number)
            return format_seconds(light.time_ms / 1000) if light else ""
        case model.UntilPressed():
            return f"{format_clock(step.least_ms)}-{format_clock(step.most_ms)}"
        case model.Bath() | model.ByHand():
            return format_clock(step.time_ms)
        case model.Pause():
            return ""
        case _:
            assert_never(step)


def _manner(step: model.AnyStep) -> str:
    """The last column: what sort of step, how it begins, how it is agitated."""
    words = ["by itself" if step.auto else "", "" if isinstance(step, model.Bath) else step.kind]
    if isinstance(step, model.Bath):
        words += ["beside the next steps" if step.aside else "", _agitation(step.agitation)]
    if isinstance(step, model.Light):
        words.append(f"settle {format_duration(step.settle_ms)}" if step.settle_ms else "")
    words.append("white light" if step.white else "")
    return ", ".join(word for word in words if word)


def _agitation(agitation: model.Agitation) -> str:
    first = f"first {format_duration(agitation.first_ms)}" if agitation.first_ms else ""
    again = (
        f"{format_duration(agitation.for_ms)} every {format_duration(agitation.every_ms)}"
        if agitation.every_ms
        else ""
    )
    both = " then ".join(part for part in (first, again) if part)
    return f"agitate {both}" if both else ""


def _below(step: model.AnyStep, compiled: Compiled) -> list[str]:
    lines = []
    if isinstance(step, model.Light):
        lines += _light(step, compiled)
    if isinstance(step, model.ByHand) and step.cues:
        lines.append(", ".join(f"{format_clock(cue.at_ms)} {cue.show}" for cue in step.cues))
    return [*lines, step.note] if step.note else lines


def _light(step: model.Light, compiled: Compiled) -> list[str]:
    setup = step.placed.setup
    height = format_length_mm(setup.height_mm)
    parts = [f"setup '{setup.name}'", f"lamp {step.placed.lamp.name}", setup.lens or "no lens"]
    parts += [str(setup.stop) if setup.stop else "", height, f"filter {setup.filter}" if setup.filter else ""]
    light = compiled.light_at(step.number)
    assert light is not None, "every light step has its arithmetic"
    why = str(light.exposure.budget).partition(",")[2] if light.exposure and not step.already else ""
    return [", ".join(part for part in parts if part), f"{light.text},{why}" if why else light.text]


def _times(compiled: Compiled, summed: Totals, judged: Judged) -> list[str]:
    sheets = compiled.sequence.sheets
    lines = [f"one sheet {format_clock(summed.sheet_ms)}{_span_text(compiled, summed, judged)}"]
    if summed.aside_ms:
        lines[0] += f"; what runs beside ends at {format_clock(summed.aside_ms)}"
    if sheets > 1:
        lines.append(f"{sheets} sheets {format_clock(summed.run_ms)}")
    if summed.white_step is not None and summed.white_ms is not None:
        name = compiled.sequence.steps[summed.white_step - 1].name
        lines.append(
            f"white light from step {summed.white_step} '{name}' on, at {format_clock(summed.white_ms)}"
        )
    else:
        lines.append("no white light while it runs")
    return lines


def _span_text(compiled: Compiled, summed: Totals, judged: Judged) -> str:
    if not has_judged(compiled):
        return ""
    ends = {"least": "their least", "middle": "half-way to their most", "most": "their most"}
    span = f"{format_clock(summed.least_ms)} to {format_clock(summed.most_ms)}"
    return f", steps judged by eye taken at {ends[judged]} ({span})"


def _left_table(head: Row, rows: Sequence[Row], width: int | None) -> list[str]:
    table = row_lines(*without_empty(head, rows), width, numbers_right=False) if rows else []
    return [line for row in table for line in row]


def _baths(forecast: "Forecast", width: int | None) -> list[str]:
    """Each bath as it is, then what to do."""
    head = ("", "in tray", "through it", "good for", "state")
    lines = _left_table(head, [_bath_row(outlook) for outlook in forecast.outlooks], width)
    return lines + _wrapped([*forecast.warnings, forecast.unknown_text or ""], width)


def _bath_row(outlook: "Outlook") -> Row:
    condition = outlook.condition
    return (
        outlook.tray,
        format_age_h(condition.age_h),
        f"{condition.used_8x10:.3g} of 8x10",
        outlook.good_for or "not known",
        condition.state or "limits not known",
    )


def _baths_dict(forecast: "Forecast") -> dict[str, Any]:
    return {
        "baths": [
            {
                "tray": outlook.tray,
                "state": outlook.condition.state,
                "age_h": round(outlook.condition.age_h, 2),
                "used_8x10": round(outlook.condition.used_8x10, 3),
                "fresh_before_sheet": outlook.fresh_before,
                "why": outlook.why,
            }
            for outlook in forecast.outlooks
        ],
        "unknown_trays": list(forecast.unknown),
    }
