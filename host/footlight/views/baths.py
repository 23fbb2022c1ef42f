"""Baths as lines of text and as JSON."""

from collections.abc import Sequence
from typing import Any

from footlight.actions.list_baths import BathList
from footlight.baths.charted import Point
from footlight.baths.condition import Condition
from footlight.notebook.stock.baths import Mixed, in_words
from footlight.quantities import format_age_h, format_volume_ml
from footlight.views.table import Grid
from footlight.views.times import bath_text, date_text

_HEAD = [
    "bath",
    "mixed",
    "in tray",
    "sheets",
    "through it",
    "left by area",
    "left by age",
    "clearing",
    "state",
]


def lines(listed: BathList, width: int | None = None) -> list[str]:
    """The baths in use as a table, `width` characters wide at most, and what is not certain about it."""
    return [*grid(listed).lines(width), *(f"! {note}" for note in notes(listed))]


def grid(listed: BathList) -> Grid:
    """The baths in use as a table."""
    return Grid(_HEAD, [_row(condition) for condition in listed.shelf.in_use])


def notes(listed: BathList) -> list[str]:
    """What is not certain about the baths in use."""
    notes = [note for condition in listed.shelf.in_use for note in _notes(condition)]
    if listed.unknown_sheets:
        notes.append(
            f"{_counted(listed.unknown_sheets, 'sheet')} went through trays that are not known here:"
            " their sequence was not sent from this notebook."
        )
    return notes


def whole(condition: Condition, width: int | None = None) -> list[str]:
    """Everything about one bath."""
    return [
        *about(condition),
        *visits(condition).lines(width),
        *(f"! {note}" for note in _notes(condition)),
    ]


def about(condition: Condition) -> list[str]:
    """A bath, its state, its limits and what was found of it."""
    bath = condition.bath
    ended = f"; in use until {date_text(bath.ended_unix_s)}" if bath.ended_unix_s is not None else ""
    return [
        f"{mixed_text(bath)}{ended}",
        f"state: {condition.state or 'its limits are not known'}",
        *(f"  {reason}" for reason in _reasons(condition)),
        *_limits(condition),
        *(f"{date_text(finding.at_unix_s)}  {in_words(finding)}" for finding in bath.findings),
    ]


def mixed_text(mixed: Mixed) -> str:
    """`bleach: 1000 mL, peroxide bleach, 35 % stock; mixed 2026-11-25 18:30`."""
    # Most trays and formulas are called after what they hold: 'clearing bath'.
    kind = "" if mixed.kind in (mixed.name, *mixed.formula.split()) else mixed.kind
    parts = [format_volume_ml(mixed.volume_ml), kind, mixed.formula, mixed.made_from]
    return f"{mixed.name}: {', '.join(filter(None, parts))}; mixed {date_text(mixed.mixed_unix_s)}"


def points(charted: Sequence[Point], width: int | None = None) -> list[str]:
    """The figures of a bath's chart as a table; nothing without any."""
    return point_grid(charted).lines(width)


def point_grid(charted: Sequence[Point]) -> Grid:
    """The figures of a bath's chart."""
    units = {"time": "s"}
    rows = [
        [
            "the last" if point.baths_before == 0 else f"{point.baths_before} before",
            f"{point.sheet}" if point.sheet is not None else "–",
            point.what,
            f"{point.value:.3g} {units.get(point.what, 'D')}",
            f"{point.per_l:.3g}",
            f"{point.age_h:.1f} h",
        ]
        for point in charted
    ]
    return Grid(["bath", "sheet", "what", "value", "8x10 a litre", "in tray"], rows)


def as_dict(condition: Condition) -> dict[str, Any]:
    """For `--json`; units are in the keys."""
    left, times, known = condition.left, condition.times, condition.known
    return {
        "name": condition.bath.name,
        "id": condition.bath.id,
        "kind": condition.bath.kind,
        "formula": condition.bath.formula,
        "made_from": condition.bath.made_from,
        "volume_ml": condition.bath.volume_ml,
        "working_ml": condition.bath.working_ml,
        "mixed_unix_s": condition.bath.mixed_unix_s,
        "ended_unix_s": condition.bath.ended_unix_s,
        "bottled": condition.bath.is_bottled,
        "age_h": round(condition.age_h, 2),
        "sheets": condition.sheets,
        "used_8x10": round(condition.used_8x10, 3),
        "unsure_visits": condition.unsure,
        "left_8x10": [round(left.least_sheets, 2), round(left.most_sheets, 2)] if left else None,
        "hours_left": [round(hours, 2) for hours in _hours_left(condition)] if known else None,
        "fresh_s": times.fresh_s if times else None,
        "now_s": times.now_s if times else None,
        "state": condition.state,
        "limits": {"use": known.use_from, "age": known.age_from} | vars(known.limits) if known else None,
        "findings": [vars(finding) for finding in condition.bath.findings],
    }


def _row(condition: Condition) -> list[str]:
    left = condition.left
    place = "bottled, " if condition.bath.is_bottled else ""
    return [
        condition.bath.name,
        date_text(condition.bath.mixed_unix_s),
        f"{place}{format_age_h(condition.age_h)}",
        f"{condition.sheets}",
        f"{condition.used_8x10:.3g}",
        f"{left.least_sheets:.3g} to {left.most_sheets:.3g}" if left else "–",
        "{:.1f} to {:.1f} h".format(*_hours_left(condition)) if condition.known else "–",
        _times(condition),
        condition.state or "limits not known",
    ]


def _hours_left(condition: Condition) -> tuple[float, float]:
    assert condition.known is not None
    least_h, most_h = condition.known.limits.tray_h
    return max(0.0, least_h - condition.age_h), max(0.0, most_h - condition.age_h)


def _times(condition: Condition) -> str:
    times = condition.times
    return f"{times.now_s / times.fresh_s:.2g} × fresh" if times else "–"


def _reasons(condition: Condition) -> list[str]:
    reasons = list(condition.left.reasons) if condition.left else []
    if condition.is_served_out:
        reasons.append(
            f"served {condition.sheets} sheets; the sequence lets it serve {condition.life_sheets}: mix fresh"
        )
    return reasons


def _limits(condition: Condition) -> list[str]:
    if condition.known is None:
        return [
            "limits: nobody knows any for this kind; write your own: footlight bath found --sheets --hours"
        ]
    use, age = condition.known.limits.sheets_per_l, condition.known.limits.tray_h
    return [
        f"limits: {use[0]:.3g} to {use[1]:.3g} sheets of 8x10 a litre, {condition.known.use_from};"
        f" {age[0]:.3g} to {age[1]:.3g} h, {condition.known.age_from}"
    ]


def visits(condition: Condition) -> Grid:
    """The sheets that were in the bath."""
    head = ["visit", "began", "sheet", "step", "area", "through it", "in tray", "judged by eye"]
    rows, used = [], 0.0
    for number, visit in enumerate(condition.visits, start=1):
        used += visit.area_8x10
        rows.append(
            [
                f"{number}",
                date_text(visit.unix_s),
                f"{visit.sheet}",
                f"{visit.step}",
                f"{visit.area_8x10:.3g}",
                f"{used:.3g}",
                format_age_h(condition.bath.age_h(visit.unix_s)),
                bath_text(round(visit.cleared_s * 1000) if visit.cleared_s else None),
            ]
        )
    return Grid(head, rows)


def _notes(condition: Condition) -> list[str]:
    if not condition.unsure:
        return []
    return [
        f"{condition.bath.name}: {_counted(condition.unsure, 'visit')} may have been another bath's:"
        " the date of the run is not known."
    ]


def _counted(count: int, noun: str) -> str:
    return f"{count} {noun}{'' if count == 1 else 's'}"
