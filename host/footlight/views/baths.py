"""Baths as lines of text and as JSON."""

from typing import Any

from footlight.baths.condition import Condition, Shelf
from footlight.cli.bath.mixed import mixed_text
from footlight.notebook.stock.baths import in_words
from footlight.quantities.age import format_age_h
from footlight.views.table import columns
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


def lines(shelf: Shelf, unknown_sheets: int) -> list[str]:
    """The baths in use as a table, and what is not certain about it."""
    rows = [_row(one) for one in shelf.in_use]
    notes = [note for one in shelf.in_use for note in _notes(one)]
    if unknown_sheets:
        notes.append(
            f"{_counted(unknown_sheets, 'sheet')} went through trays that are not known here:"
            " their sequence was not sent from this notebook."
        )
    return [*columns(_HEAD, rows), *(f"! {note}" for note in notes)]


def whole(one: Condition) -> list[str]:
    """Everything about one bath."""
    bath = one.bath
    ended = f"; in use until {date_text(bath.ended_unix_s)}" if bath.ended_unix_s is not None else ""
    return [
        f"{mixed_text(bath)}{ended}",
        f"state: {one.state or 'its limits are not known'}",
        *(f"  {reason}" for reason in _reasons(one)),
        *_limits(one),
        *[f"{date_text(found.at_unix_s)}  {in_words(found)}" for found in bath.findings],
        *_visits(one),
        *(f"! {note}" for note in _notes(one)),
    ]


def as_dict(one: Condition) -> dict[str, Any]:
    """For `--json`; units are in the keys."""
    left, times, known = one.left, one.times, one.known
    return {
        "name": one.bath.name,
        "id": one.bath.id,
        "kind": one.bath.kind,
        "formula": one.bath.formula,
        "made_from": one.bath.made_from,
        "volume_ml": one.bath.volume_ml,
        "working_ml": one.bath.working_ml,
        "mixed_unix_s": one.bath.mixed_unix_s,
        "ended_unix_s": one.bath.ended_unix_s,
        "bottled": one.bath.is_bottled,
        "age_h": round(one.age_h, 2),
        "sheets": one.sheets,
        "used_8x10": round(one.used_8x10, 3),
        "unsure_visits": one.unsure,
        "left_8x10": [round(left.least_sheets, 2), round(left.most_sheets, 2)] if left else None,
        "hours_left": [round(hours, 2) for hours in _hours_left(one)] if known else None,
        "fresh_s": times.fresh_s if times else None,
        "now_s": times.now_s if times else None,
        "state": one.state,
        "limits": {"use": known.use_from, "age": known.age_from} | vars(known.limits) if known else None,
        "findings": [vars(found) for found in one.bath.findings],
    }


def _row(one: Condition) -> list[str]:
    left = one.left
    place = "bottled, " if one.bath.is_bottled else ""
    return [
        one.bath.name,
        date_text(one.bath.mixed_unix_s),
        f"{place}{format_age_h(one.age_h)}",
        f"{one.sheets}",
        f"{one.used_8x10:.3g}",
        f"{left.least_sheets:.3g} to {left.most_sheets:.3g}" if left else "–",
        "{:.1f} to {:.1f} h".format(*_hours_left(one)) if one.known else "–",
        _times(one),
        one.state or "limits not known",
    ]


def _hours_left(one: Condition) -> tuple[float, float]:
    assert one.known is not None
    least_h, most_h = one.known.limits.tray_h
    return max(0.0, least_h - one.age_h), max(0.0, most_h - one.age_h)


def _times(one: Condition) -> str:
    times = one.times
    return f"{times.now_s / times.fresh_s:.2g} × fresh" if times else "–"


def _reasons(one: Condition) -> list[str]:
    found = list(one.left.reasons) if one.left else []
    if one.is_served_out:
        found.append(f"served {one.sheets} sheets; the sequence lets it serve {one.life_sheets}: mix fresh")
    return found


def _limits(one: Condition) -> list[str]:
    if one.known is None:
        return [
            "limits: nobody knows any for this kind; write your own: footlight bath found --sheets --hours"
        ]
    use, age = one.known.limits.sheets_per_l, one.known.limits.tray_h
    return [
        f"limits: {use[0]:.3g} to {use[1]:.3g} sheets of 8x10 a litre, {one.known.use_from};"
        f" {age[0]:.3g} to {age[1]:.3g} h, {one.known.age_from}"
    ]


def _visits(one: Condition) -> list[str]:
    head = ["visit", "began", "sheet", "step", "area", "through it", "in tray", "judged by eye"]
    rows, used = [], 0.0
    for number, visit in enumerate(one.visits, start=1):
        used += visit.area_8x10
        rows.append(
            [
                f"{number}",
                date_text(visit.unix_s),
                f"{visit.sheet}",
                f"{visit.step}",
                f"{visit.area_8x10:.3g}",
                f"{used:.3g}",
                format_age_h(one.bath.age_h(visit.unix_s)),
                bath_text(round(visit.cleared_s * 1000) if visit.cleared_s else None),
            ]
        )
    return columns(head, rows)


def _notes(one: Condition) -> list[str]:
    if not one.unsure:
        return []
    return [
        f"{one.bath.name}: {_counted(one.unsure, 'visit')} may have been another bath's:"
        " the date of the run is not known."
    ]


def _counted(count: int, noun: str) -> str:
    return f"{count} {noun}{'' if count == 1 else 's'}"
