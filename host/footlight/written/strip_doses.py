"""The doses of a strip as they are written: a list of them, or a centre with its steps."""

from footlight import quantities as q
from footlight.errors import InputError, field
from footlight.light.strip import steps as plan

_LEAST_BANDS, _LEAST_FLASHES = 5, 3


def strip_totals_s(doses: str | None, centre: str | None, step: str, count: int) -> tuple[float, ...]:
    """Every band's dose [s], zero first, anchor last; raises InputError where they do not rise."""
    _one_way(doses, centre, "doses")
    if centre is not None:
        totals = _stepped(centre, step, count)
        return (0.0, *totals, plan.anchor_s(totals))
    asked = "a zero, three or more rising steps and the anchor, such as '0, 4 s, 8 s, 16 s, 80 s'"
    return _listed(str(doses), _LEAST_BANDS, asked)


def flash_totals_s(doses: str | None, centre: str | None, step: str, count: int) -> tuple[float, ...]:
    """Every flash [s], none first; raises InputError where they do not rise."""
    _one_way(doses, centre, "flashes")
    if centre is not None:
        return (0.0, *_stepped(centre, step, count))
    return _listed(str(doses), _LEAST_FLASHES, "0 and two or more rising flashes, such as '0, 1 s, 2 s'")


def numbers(text: str | None, what: str, least: float, most: float) -> tuple[float, ...]:
    """A list of plain numbers; empty for None."""
    if not text:
        return ()
    return tuple(q.parse_number(part.strip(), what, least=least, most=most) for part in text.split(","))


def _one_way(doses: str | None, centre: str | None, noun: str) -> None:
    if (doses is None) == (centre is None):
        raise InputError(
            f"strip: give {field('sheet')} for the {noun} that the notebook knows; or either"
            f" {field('doses')}, as given, or {field('centre')} with {field('step')} and {field('count')},"
            " as planned"
        )


def _stepped(centre: str, step: str, count: int) -> list[float]:
    centre_s = q.parse_seconds(centre, field("centre"))
    return plan.fstop_steps(centre_s, q.parse_stops(step, field("step")), count)


def _listed(text: str, least: int, asked: str) -> tuple[float, ...]:
    totals = tuple(_dose_s(part.strip()) for part in text.split(","))
    if totals[0] != 0 or list(totals) != sorted(set(totals)) or len(totals) < least:
        raise InputError(f"{field('doses')}: write {asked}, not '{text}'")
    return totals


def _dose_s(part: str) -> float:
    return 0.0 if part == "0" else q.parse_seconds(part, field("doses"))
