"""Tones before paper, as lines and as a plain dictionary."""

from typing import Any

from footlight.actions.predict_tones import Answer, Predicted, Taught
from footlight.quantities import format_seconds
from footlight.quantities.signs import signed_stops
from footlight.tones.advice import HELD_D, Change, Setting
from footlight.tones.look import WORDS
from footlight.views.table import columns

_HEAD = ("place", "metered", "density", "90 %", "L*", "looks")


def lines(answer: Answer, width: int | None = None) -> list[str]:
    """The answer first, then what fell off, the flash, the wanted tones, what taught."""
    return [
        _paper_line(answer),
        f"'{answer.scene.name}': index {answer.scene.index:g}, {format_seconds(answer.scene.time_s)},"
        f" flash {format_seconds(answer.scene.flash)}; {answer.scene.range_stops:.1f} stops",
        *columns(_HEAD, [_row(place) for place in answer.places], width),
        *_ends(answer),
        *_flash(answer),
        *_advice(answer, width),
        *(line for taught in answer.taught for line in _taught(taught)),
        *(f"! {note}" for note in answer.notes),
    ]


def _paper_line(answer: Answer) -> str:
    iso = answer.iso
    curve = answer.curve
    told = f"R {iso.range_r:.0f}" if iso.range_r is not None else "R not reached"
    told += f", P {iso.speed_p:.3g}" if iso.speed_p is not None else ", P not reached"
    return (
        f"{answer.paper}, batch {answer.batch}: {curve.black_d:.2f} D to {curve.white_d:.2f} D;"
        f" after reversal {told}"
    )


def _row(place: Predicted) -> list[str]:
    looks = place.words[0] + (f" (or {', '.join(place.words[1:])})" if place.words[1:] else "")
    if place.is_beyond:
        looks += "; beyond what was measured"
    return [
        place.name,
        f"EV {place.ev:g}",
        f"{place.density_d:.2f} D",
        f"{place.low_d:.2f}–{place.high_d:.2f}",
        f"{place.lightness:.0f}",
        looks,
    ]


def _ends(answer: Answer) -> list[str]:
    """What falls off either end."""
    ends = (WORDS[0], WORDS[4])
    fallen = {end: [place.name for place in answer.places if place.words[0] == end] for end in ends}
    return [f"without texture, {end}: {', '.join(names)}" for end, names in fallen.items() if names]


def _flash(answer: Answer) -> list[str]:
    if answer.threshold_s is None:
        return []
    told = [f"flash threshold: {format_seconds(answer.threshold_s)} takes 0.04 D from the black"]
    if answer.flash_choice:
        told.append(f"of the two darkest places: {answer.flash_choice.summary}")
    return told


def _advice(answer: Answer, width: int | None) -> list[str]:
    if answer.chosen is None:
        return []
    names = list(answer.wanted)
    head = ("flash", "index", "light", "or time", *names, "black lost", "")
    rows = [_setting_row(setting, names, setting is answer.chosen) for setting in answer.settings]
    wishes = ", ".join(f"{name} {density:.2f} D" for name, density in answer.wanted.items())
    return [f"wanted: {wishes}", *columns(head, rows, width), *_verdict(answer, answer.chosen)]


def _setting_row(setting: Setting, names: list[str], is_chosen: bool) -> list[str]:
    tones = setting.tones
    return [
        format_seconds(setting.flash),
        f"{setting.index:.2g}",
        signed_stops(setting.stops),
        format_seconds(setting.time_s),
        *(f"{tones[name].density_d:.2f} D{' beyond' if tones[name].is_beyond else ''}" for name in names),
        f"{setting.loss_d:.2f} D",
        "<- this" if is_chosen and setting.is_held else "",
    ]


def _verdict(answer: Answer, chosen: Setting) -> list[str]:
    if chosen.is_held:
        return [f"chosen to ± {chosen.off_stops:.2f} stop"]
    nearest = f"the nearest misses by {chosen.miss_d:.2f} D"
    return [
        f"No sheet of this paper holds this scene within {HELD_D:.2f} D ({nearest}): choose which tone"
        " gives way.",
        *(f"  {name} alone: {_alone(answer, change)}" for name, change in answer.alone.items()),
    ]


def _alone(answer: Answer, change: Change | None) -> str:
    if change is None:
        return "not to be had with the planned flash, as far as the paper was measured"
    index = answer.scene.index / 2**change.stops
    beyond = "; beyond what was measured" if change.tone.is_beyond else ""
    return f"index {index:.2g}, {signed_stops(change.stops)} ± {change.off_stops:.2f}{beyond}"


def _taught(taught: Taught) -> list[str]:
    rest = "; ".join(
        f"{each.name} {each.predicted_d:.2f} predicted, {each.came_d:.2f} came"
        for each in taught.lesson.residuals
    )
    told = [f"{taught.name}, batch {taught.batch}: {rest}"]
    if taught.lesson.question:
        told.append(f"? {taught.name} is not averaged in. {taught.lesson.question}")
    return told


def as_dict(answer: Answer) -> dict[str, Any]:
    """For a script; densities [D], exposures [stops from 1 lx s]."""
    line = answer.curve.line
    return {
        "paper": answer.paper,
        "batch": answer.batch,
        "range_r": answer.iso.range_r,
        "speed_p": answer.iso.speed_p,
        "curve": [
            {"stops": round(stops, 4), "density_d": round(density, 4)}
            for stops, density in zip(line.places, line.values, strict=True)
        ],
        "scene": answer.scene.name,
        "places": [vars(place) | {"words": list(place.words)} for place in answer.places],
        "flash_threshold_s": answer.threshold_s,
        "flash_choice_s": answer.flash_choice.chosen.flash_s if answer.flash_choice else None,
        "settings": [_setting_dict(setting, setting is answer.chosen) for setting in answer.settings],
        "holds": answer.chosen.is_held if answer.chosen else None,
        "prints": [_taught_dict(taught) for taught in answer.taught],
        "notes": list(answer.notes),
    }


def _setting_dict(setting: Setting, is_chosen: bool) -> dict[str, Any]:
    return {
        "flash_s": setting.flash,
        "index": setting.index,
        "stops": setting.stops,
        "time_s": setting.time_s,
        "black_lost_d": setting.loss_d,
        "miss_d": setting.miss_d,
        "off_stops": setting.off_stops,
        "is_chosen": is_chosen,
        "tones": {name: vars(tone) for name, tone in setting.tones.items()},
    }


def _taught_dict(taught: Taught) -> dict[str, Any]:
    return {
        "name": taught.name,
        "batch": taught.batch,
        "is_taken_in": not taught.lesson.question,
        "question": taught.lesson.question,
        "places": [vars(each) for each in taught.lesson.residuals],
    }
