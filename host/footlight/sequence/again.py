"""A sequence once more, with changes: more light, another height or stop, a larger sheet, or what was given.

Nothing is reckoned twice: doses are written anew and the compiler works out their times. Only a light whose
time was written itself is converted here, by `footlight.light`.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from footlight.errors import InputError
from footlight.errors import field as field_name
from footlight.light.bigger import Bigger, same_exposure
from footlight.light.evenness import of_sheet
from footlight.light.exposure import convert
from footlight.light.setup import Arrangement
from footlight.quantities import (
    FStop,
    Sheet,
    format_duration,
    format_length_mm,
    format_sheet,
    format_stop,
    format_stops,
    parse_stops,
)
from footlight.sequence.edited import Edit
from footlight.sequence.errors import short
from footlight.sequence.model import Bath, Dose, Light, Sequence

EVERY = "all"
_EXACT_STOPS = 5e-5


@dataclass(frozen=True)
class Wish:
    """What is to be otherwise.

    light: which light, by name or number, 'all' for every one, None: the only one. more_stops: more light
    [stops]. height_mm [mm], stop: where the lamp will stand. sheet: the new size; higher: go up until its
    corners are as even as before, as far as the column goes; old_sheet: the size that it was, where the
    sequence does not say. given_stops: step -> how much more than planned it was given
    [stops]. given_ms: step -> how long a bath really was [ms].
    """

    light: str | None = None
    more_stops: float = 0.0
    height_mm: float | None = None
    stop: FStop | None = None
    sheet: Sheet | None = None
    higher: bool = False
    old_sheet: Sheet | None = None
    given_stops: Mapping[int, float] = field(default_factory=dict)
    given_ms: Mapping[int, int] = field(default_factory=dict)


@dataclass(frozen=True)
class Again:
    """What has to be written otherwise, and what the printer should know of it, a sentence each."""

    edits: tuple[Edit, ...]
    notes: tuple[str, ...]


def again(sequence: Sequence, wish: Wish) -> Again:
    """The edits that make a sequence what is wished.

    Raises InputError for a light that is not there or not named, a size that is not known, and what no
    light can do.
    """
    chosen = lights(sequence, wish.light, needs_name=bool(wish.more_stops))
    strip = [step for step in _all(sequence) if step.already]
    if strip and wish.more_stops and len(chosen) < len(_all(sequence)):
        raise InputError(
            f"{short(sequence.name)}: the lights of a strip add up, so one alone cannot be changed;"
            f" {field_name('light')} {EVERY} changes them together"
        )
    bigger = _bigger(sequence, chosen, wish) if wish.sheet else {}
    edits = [edit for step in _all(sequence) for edit in _light(step, step in chosen, wish, bigger)]
    edits += [
        Edit(f"step {step.number}", "time", format_duration(wish.given_ms[step.number]))
        for step in sequence.steps
        if isinstance(step, Bath) and step.number in wish.given_ms
    ]
    notes = [_evenness(step, bigger[step.number], wish) for step in chosen if step.number in bigger]
    if strip and wish.more_stops:
        notes.append("names and notes of the strip's lights are as they were written, their doses are not")
    if wish.sheet:
        more_edits, more_notes = _size(sequence, wish.sheet, _old_sheet(sequence, wish))
        edits, notes = edits + more_edits, notes + more_notes
    return Again(tuple(edits), tuple(dict.fromkeys(notes)))


def lights(sequence: Sequence, wanted: str | None, *, needs_name: bool) -> list[Light]:
    """The lights that are meant: by name or number, all of them for 'all' or None.

    needs_name: with several lights, None is refused. Raises InputError, listing what there is.
    """
    every = _all(sequence)
    listed = ", ".join(f"{light.number} '{light.name}'" for light in every)
    if not every:
        raise InputError(f"{short(sequence.name)}: no step of it is a light; a change of light has no place")
    if wanted is None and needs_name and len(every) > 1:
        raise InputError(
            f"{short(sequence.name)} has {len(every)} lights: {listed}; name one with"
            f" {field_name('light')}, or {field_name('light')} {EVERY}"
        )
    if wanted in (None, EVERY):
        return every
    found = [light for light in every if wanted in (light.name, f"{light.number}")]
    if not found:
        raise InputError(f"{field_name('light')} {short(wanted)}: there is no such light; there is {listed}")
    return found


def _all(sequence: Sequence) -> list[Light]:
    return [step for step in sequence.steps if isinstance(step, Light)]


def _light(step: Light, is_chosen: bool, wish: Wish, bigger: Mapping[int, Bigger]) -> list[Edit]:
    setup = step.placed.setup
    more_stops = wish.given_stops.get(step.number, 0.0) + (wish.more_stops if is_chosen else 0.0)
    height_mm, stop = setup.height_mm, setup.stop
    if is_chosen:
        height_mm = _height_mm(step, wish, bigger.get(step.number))
        stop = wish.stop or stop
    if stop is not None and setup.lens is None:
        raise InputError(
            f"step {step.number} '{short(step.name)}': a bare lamp has no stop; leave"
            f" {field_name('stop')} out"
        )
    to = setup.arranged(height_mm, stop)
    place = [("height", format_length_mm(height_mm))] if height_mm != setup.height_mm else []
    place += [("stop", format_stop(stop))] if stop and stop != setup.stop else []
    return [Edit(f"step {step.number}", *pair) for pair in [*_amount(step, more_stops, to), *place]]


def _height_mm(step: Light, wish: Wish, bigger: Bigger | None) -> float:
    """Where it stands, unless another height was asked for. Raises InputError above the column's end."""
    setup = step.placed.setup
    height_mm = wish.height_mm or setup.height_mm
    if wish.higher and not wish.height_mm and bigger is not None and not bigger.can_stay:
        height_mm = _raised_mm(bigger, setup.highest_mm)
    if setup.highest_mm is not None and height_mm > setup.highest_mm:
        raise InputError(
            f"{field_name('height')}: {height_mm:.0f} mm is above the end of the column; light setup"
            f" '{setup.name}' goes to {setup.highest_mm:.0f} mm"
        )
    return height_mm


def _raised_mm(bigger: Bigger, highest_mm: float | None) -> float:
    """To the millimetre. Raises InputError where nobody said how high the column goes."""
    if highest_mm is None:
        raise InputError(
            f"{field_name('higher')}: how high the column goes is not known; write highest = '900 mm' into"
            f" the light setup, or give {field_name('height')}"
        )
    return min(float(round(bigger.raised.height_mm)), highest_mm)


def _amount(step: Light, more_stops: float, to: Arrangement) -> list[tuple[str, str]]:
    """How much light, written anew; nothing where it stays as it is written."""
    setup = step.placed.setup
    if step.dose is None:
        if not more_stops and to == setup.here:
            return []
        answer = convert(
            step.time_ms / 1000,
            setup.here,
            to,
            offset_stops=more_stops,
            departure=setup.departure,
            build=setup.build,
        )
        return [("time", format_duration(answer.duration_ms))]
    if not more_stops:
        return []
    parts = [("dose", step.dose)] + ([("already", step.already)] if step.already else [])
    return [(key, _dose(dose, more_stops)) for key, dose in parts]


def _dose(dose: Dose, more_stops: float) -> str:
    factor = 2**more_stops
    if dose.lux_s is not None:
        return f"{dose.lux_s * factor:.6g} lx s"
    if dose.reference_s is not None:
        return format_duration(round(dose.reference_s * factor * 1000))
    return stops_text((dose.stops or 0.0) + more_stops)


def stops_text(stops: float) -> str:
    """A dose in stops from the reference, as a sequence file has it: `reference`, `+1/3 stop`."""
    if abs(stops) < _EXACT_STOPS:
        return "reference"
    text = format_stops(stops)
    return text if abs(parse_stops(text, "dose") - stops) < _EXACT_STOPS else f"{stops:+.4f} stop"


def _old_sheet(sequence: Sequence, wish: Wish) -> Sheet:
    known = wish.old_sheet or sequence.sheet
    if known is None:
        raise InputError(
            f"{short(sequence.name)}: the sequence does not say how large its sheet was; add"
            f" {field_name('from_size')}, for example {field_name('from_size')} 4x5"
        )
    return known


def _bigger(sequence: Sequence, chosen: list[Light], wish: Wish) -> dict[int, Bigger]:
    assert wish.sheet is not None
    old = _old_sheet(sequence, wish)
    found = {}
    for light in chosen:
        setup = light.placed.setup
        at = setup.arranged(setup.height_mm, setup.stop)
        # The seconds decide nothing here: only height and evenness are asked for.
        bigger = same_exposure(1.0, at, old, wish.sheet)
        if wish.height_mm:
            # As even as before means as the old sheet was where the lamp stood then.
            bigger = replace(bigger, stay=of_sheet(wish.sheet, wish.height_mm, bigger.raised.source))
        found[light.number] = bigger
    return found


def _evenness(step: Light, bigger: Bigger, wish: Wish) -> str:
    """How even the new sheet is where the lamp stands, and what evener corners would take."""
    compared = f"{bigger.before.summary}; {bigger.stay.summary}"
    even_mm = bigger.raised.height_mm
    if wish.height_mm and wish.height_mm >= round(even_mm):
        return f"{compared}: corners as even as before"
    if bigger.can_stay:
        return f"{compared}: the lamp may stay where it is"
    if not wish.higher or wish.height_mm:
        stays = "as you wish" if wish.height_mm else "the lamp stays where it is"
        return f"{compared}: {stays}; corners as even as before need {even_mm:.0f} mm"
    highest_mm = step.placed.setup.highest_mm
    if highest_mm is not None and even_mm > highest_mm:
        there = of_sheet(bigger.raised.sheet, highest_mm, bigger.raised.source)
        return (
            f"{compared}: as high as the column goes, {there.summary}; corners as even as before need"
            f" {even_mm:.0f} mm"
        )
    return f"{compared}: so it goes to {even_mm:.0f} mm, where corners are as even as before"


def _size(sequence: Sequence, new: Sheet, old: Sheet) -> tuple[list[Edit], list[str]]:
    """Size and the lives of baths, which are counted in sheets of the sequence's own size."""
    ratio = new.area_cm2 / old.area_cm2
    edits, notes = [Edit("", "sheet", new.name)], []
    if sequence.trays and not math.isclose(ratio, 1, abs_tol=0.01):
        notes.append(
            f"{format_sheet(new)} has {ratio:.3g} times the area of {format_sheet(old)}: so much more of each"
            " bath is used up by a sheet, and wanted in a larger tray for the same depth"
        )
    for tray in sequence.trays:
        if tray.life_sheets > 1 and ratio > 1.01:
            life = max(1, math.floor(tray.life_sheets / ratio + 1e-9))
            edits.append(Edit(f"trays.{tray.name}", "life", f"{life} sheet{'s' if life > 1 else ''}"))
            notes.append(f"tray '{tray.name}' lasts {life} such sheets, not {tray.life_sheets}")
    return edits, notes
