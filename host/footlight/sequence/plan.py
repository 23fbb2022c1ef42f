"""The plan of a sequence as a printer reads it: trays, steps with times, the light's arithmetic, totals."""

from collections.abc import Iterable
from textwrap import wrap
from typing import Any

from footlight.quantities import format_duration, format_length_mm, format_seconds, format_sheet
from footlight.sequence import model
from footlight.sequence.compiler import Compiled
from footlight.sequence.hazards import hazards_of
from footlight.sequence.spans import Judged, Span, timeline
from footlight.sequence.totals import Totals, has_judged, totals

_WIDTH = 100


def plan(compiled: Compiled, judged: Judged = "middle") -> list[str]:
    """The plan as lines of text; `judged` says when steps judged by eye end."""
    sequence = compiled.sequence
    return [
        *_head(compiled),
        *_section("Trays", _trays(sequence)),
        *_section("Steps", _steps(compiled, judged)),
        *_section("Times, if nobody waits", _times(compiled, totals(compiled, judged), judged)),
        *_section("Hazards", _wrapped(hazards_of(sequence))),
        *_section("Mind", _wrapped(compiled.warnings)),
    ]


def plan_as_dict(compiled: Compiled, judged: Judged = "middle") -> dict[str, Any]:
    """The plan for `--json`; units are in the keys. Spans of a batch are those of all its sheets."""
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
    }


def clock(time_ms: int) -> str:
    """m:ss, rounded to the second; h:mm:ss from an hour on."""
    seconds = (time_ms + 500) // 1000
    minutes, seconds = divmod(seconds, 60)
    if minutes < 60:
        return f"{minutes}:{seconds:02d}"
    return f"{minutes // 60}:{minutes % 60:02d}:{seconds:02d}"


def _section(title: str, lines: Iterable[str]) -> list[str]:
    """A titled section; nothing where it has no lines."""
    found = [f"  {line}".rstrip() for line in lines]
    return ["", title, *found] if found else []


def _wrapped(sentences: list[str]) -> list[str]:
    return [line for sentence in sentences for line in wrap(sentence, _WIDTH, subsequent_indent="  ")]


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


def _trays(sequence: model.Sequence) -> list[str]:
    used = {tray.name for step in sequence.steps if (tray := _tray_of(step))}
    rows = [
        (tray.place or "-", tray.tongs or "-", tray.bath, _tray_notes(tray, tray.name in used))
        for tray in _in_use(sequence)
    ]
    return columns([("place", "tongs", "bath", ""), *rows]) if rows else []


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


def _steps(compiled: Compiled, judged: Judged) -> list[str]:
    """One row a step; under it, indented, what does not fit in a column."""
    sequence = compiled.sequence
    first = [span for span in timeline(compiled.program, judged) if span.sheet == 1]
    pairs = list(zip(sequence.steps, first, strict=True))
    head = ("", "start", "length", "lift", "tray", "step", "shown", "")
    rows = columns([head, *(_row(step, span, compiled) for step, span in pairs)])
    lines, said = rows[:1], ""
    for row, (step, _) in zip(rows[1:], pairs, strict=True):
        below = _below(step, compiled)
        # The lights of a strip share their setup: it is said once.
        if isinstance(step, model.Light):
            said, below = below[0], below[1:] if below[0] == said else below
        lines += [row, *(f"    {more}" for more in below)]
    return lines


def _row(step: model.AnyStep, span: Span, compiled: Compiled) -> tuple[str, ...]:
    tray = _tray_of(step)
    place = f"{tray.place} {tray.tongs}".strip() if tray else ""
    lift = format_duration(span.lift_ms) if span.lift_ms else ""
    start, length = clock(span.start_ms), _length(step, compiled)
    return (f"{step.number}", start, length, lift, place, step.name, step.show, _manner(step))


def _length(step: model.AnyStep, compiled: Compiled) -> str:
    if isinstance(step, model.Light):
        light = compiled.light_at(step.number)
        return format_seconds(light.time_ms / 1000) if light else ""
    if isinstance(step, model.UntilPressed):
        return f"{clock(step.least_ms)}-{clock(step.most_ms)}"
    return clock(step.time_ms) if isinstance(step, model.Bath | model.ByHand) else ""


def _manner(step: model.AnyStep) -> str:
    """The last column: what sort of step, how it begins, how it is agitated."""
    words = ["by itself" if step.auto else "", _KIND_WORDS[step.kind]]
    if isinstance(step, model.Bath):
        words += ["beside the next steps" if step.aside else "", _agitation(step.agitation)]
    if isinstance(step, model.Light):
        words.append(f"settle {format_duration(step.settle_ms)}" if step.settle_ms else "")
    words.append("white light" if step.white else "")
    return ", ".join(word for word in words if word)


_KIND_WORDS = {
    "bath": "",
    "by hand": "by hand",
    "until pressed": "until pressed",
    "light": "light",
    "pause": "pause",
}


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
        lines.append(", ".join(f"{clock(cue.at_ms)} {cue.show}" for cue in step.cues))
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


def _times(compiled: Compiled, found: Totals, judged: Judged) -> list[str]:
    sheets = compiled.sequence.sheets
    lines = [f"one sheet {clock(found.sheet_ms)}{_span_text(compiled, found, judged)}"]
    if found.aside_ms:
        lines[0] += f"; what runs beside ends at {clock(found.aside_ms)}"
    if sheets > 1:
        lines.append(f"{sheets} sheets {clock(found.run_ms)}")
    if found.white_step is not None and found.white_ms is not None:
        name = compiled.sequence.steps[found.white_step - 1].name
        lines.append(f"white light from step {found.white_step} '{name}' on, at {clock(found.white_ms)}")
    else:
        lines.append("no white light while it runs")
    return lines


def _span_text(compiled: Compiled, found: Totals, judged: Judged) -> str:
    if not has_judged(compiled):
        return ""
    ends = {"least": "their least", "middle": "half-way to their most", "most": "their most"}
    return (
        f", steps judged by eye taken at {ends[judged]} ({clock(found.least_ms)} to {clock(found.most_ms)})"
    )


def columns(rows: list[tuple[str, ...]]) -> list[str]:
    """Rows as lines of aligned columns; columns that are empty throughout are left out."""
    kept = [index for index in range(len(rows[0])) if any(row[index] for row in rows[1:])]
    widths = {index: max(len(row[index]) for row in rows) for index in kept}
    return ["  ".join(row[index].ljust(widths[index]) for index in kept).rstrip() for row in rows]
