"""The wall card of a compiled sequence: what is read in the dark, and nothing else."""

from collections.abc import Iterator
from collections.abc import Sequence as Several

from footlight.chemistry import advice
from footlight.chemistry.hazards import Hazards, clashes_between
from footlight.quantities import (
    format_clock,
    format_duration,
    format_length_mm,
    format_seconds,
    format_sheet,
)
from footlight.report.pages.card import FINISH, Card, Line
from footlight.sequence import Compiled, model
from footlight.sequence.hazards import hazards_of_tray
from footlight.sequence.totals import totals

_MOST_NOTE = 160
_OXIDISER = "oxidiser"


def card_of(compiled: Compiled, finish: Several[str] | None = None) -> Card:
    """The card. finish: what is done by no clock, in order; None: what is usual after a wet run."""
    sequence = compiled.sequence
    is_wet = any(isinstance(step, model.Bath) for step in sequence.steps)
    usual = FINISH if is_wet else ()
    return Card(
        name=sequence.name,
        title=sequence.title,
        about=_about(compiled),
        lines=tuple(_lines(compiled)),
        hazards=tuple(_hazards(sequence)),
        finish=tuple(finish) if finish is not None else usual,
    )


def cut_notes(compiled: Compiled) -> list[str]:
    """Steps whose notes are too long for a wall, by number and name."""
    long = (step for step in compiled.sequence.steps if len(step.note) > _MOST_NOTE)
    return [f"{step.number} '{step.name}'" for step in long]


def _about(compiled: Compiled) -> str:
    sequence, found = compiled.sequence, totals(compiled)
    parts = [format_sheet(sequence.sheet)] if sequence.sheet else []
    parts += [f"each of {sequence.sheets} sheets"] if sequence.sheets > 1 else []
    parts.append(f"{format_clock(found.sheet_ms)} a sheet if nobody waits")
    if found.white_step is not None:
        parts.append(f"red light until '{sequence.steps[found.white_step - 1].name}'")
    else:
        parts.append("no white light")
    return "; ".join([*parts, f"hash {compiled.sha256[:8]}"])


def _lines(compiled: Compiled) -> Iterator[Line]:
    said = ""
    for step in compiled.sequence.steps:
        place = _light(step) if isinstance(step, model.Light) else ""
        # The lights of a strip share their setup: it is said once.
        yield _line(step, compiled, "" if place == said else place)
        said = place or said


def _line(step: model.AnyStep, compiled: Compiled, place: str) -> Line:
    tray = getattr(step, "tray", None)
    return Line(
        place=tray.place if tray else "",
        tongs=tray.tongs if tray else "",
        time=_time(step, compiled),
        name=step.name,
        detail="; ".join(part for part in (place, *_manner(step), _note(step)) if part),
        is_light=isinstance(step, model.Light),
        is_white=step.white,
    )


def _time(step: model.AnyStep, compiled: Compiled) -> str:
    if isinstance(step, model.Light):
        light = compiled.light_at(step.number)
        assert light is not None, "every light step has its arithmetic"
        return format_seconds(light.time_ms / 1000)
    if isinstance(step, model.UntilPressed):
        return format_clock(step.least_ms)
    return format_clock(step.time_ms) if isinstance(step, model.Bath | model.ByHand) else ""


def _manner(step: model.AnyStep) -> list[str]:
    if isinstance(step, model.Light):
        return [f"settle {format_duration(step.settle_ms)}" if step.settle_ms else ""]
    if isinstance(step, model.UntilPressed):
        return [f"to {format_clock(step.most_ms)}, by eye"]
    if isinstance(step, model.ByHand):
        return [", ".join(f"{format_clock(cue.at_ms)} {cue.show}" for cue in step.cues)]
    if isinstance(step, model.Bath):
        aside = "beside the next steps" if step.aside else ""
        return ["by itself" if step.auto else "", _lift(step), _agitation(step.agitation), aside]
    return []


def _light(step: model.Light) -> str:
    setup = step.placed.setup
    where = [
        setup.lens or "no lens",
        f"{setup.stop}" if setup.stop else "",
        format_length_mm(setup.height_mm),
    ]
    parts = [step.placed.lamp.name, *where, f"filter {setup.filter}" if setup.filter else ""]
    return ", ".join(part for part in parts if part)


def _lift(step: model.Bath) -> str:
    return f"lift {format_duration(step.lift_ms)}" if step.lift_ms else ""


def _agitation(agitation: model.Agitation) -> str:
    first = f"agitate first {format_duration(agitation.first_ms)}" if agitation.first_ms else ""
    if not agitation.every_ms:
        return first
    again = f"{format_duration(agitation.for_ms)} every {format_duration(agitation.every_ms)}"
    return f"{first}, then {again}" if first else f"agitate {again}"


def _note(step: model.AnyStep) -> str:
    return step.note if len(step.note) <= _MOST_NOTE else f"{step.note[: _MOST_NOTE - 3].rstrip()}..."


def _hazards(sequence: model.Sequence) -> list[str]:
    """What to wear, which trays must not meet, what each does to you, and the eye: a line each."""
    found = [(tray, one) for tray in sequence.trays for one in hazards_of_tray(tray)]
    if not found:
        return []
    strongest = max((one for _, one in found), key=_weight)
    is_oxidising = any(_OXIDISER in one.natures for _, one in found)
    eye = [advice.EYE_FIRST] if is_oxidising else []
    apart = _apart(found)
    classes = " ".join(_classes(tray, one) for tray, one in found if one.statements or not one.known)
    return [
        f"Wear {strongest.wear[0]}.",
        *([f"Never together, rinse between: {apart}."] if apart else []),
        *([classes] if classes else []),
        *eye,
        advice.DEFER,
    ]


def _weight(one: Hazards) -> tuple[bool, int, bool]:
    return _OXIDISER in one.natures, len(one.statements), not one.known


def _apart(found: list[tuple[model.Tray, Hazards]]) -> str:
    pairs = [
        f"{_called(tray)} and {_called(other)}"
        for place, (tray, one) in enumerate(found)
        for other, another in found[place + 1 :]
        if clashes_between([one, another])
    ]
    return ", ".join(pairs)


def _called(tray: model.Tray) -> str:
    return f"{tray.place} {tray.name}".strip()


def _classes(tray: model.Tray, one: Hazards) -> str:
    if not one.known:
        return f"{_called(tray)}: make-up not known here; read its label."
    codes = dict.fromkeys(f"{said.code} {said.text.lower()}" for said in one.statements)
    return f"{_called(tray)}: {', '.join(codes)}."
