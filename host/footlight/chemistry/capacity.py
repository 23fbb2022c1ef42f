"""How many sheets a bath still has in it, by area and by age.

Capacities are settings, not constants. The ranges here are where the trade begins (common practice, no
source); replace them with your own as you learn what your paper and your water do.
"""

from dataclasses import dataclass
from typing import Literal

from footlight.chemistry.dilution import above_zero
from footlight.errors import InputError
from footlight.kinds import FormulaKind

State = Literal["good", "watch", "mix fresh"]
_SEVERITY: tuple[State, ...] = ("good", "watch", "mix fresh")


@dataclass(frozen=True)
class Limits:
    """Where use begins to tell and where it ends: sheets of 8x10 per litre of working solution, hours in
    the open tray, each (least, most)."""

    sheets_per_l: tuple[float, float]
    tray_h: tuple[float, float]

    def __post_init__(self) -> None:
        for what, (least, most) in (
            ("sheets per litre", self.sheets_per_l),
            ("hours in the tray", self.tray_h),
        ):
            if not 0 < least <= most < float("inf"):
                raise InputError(
                    f"capacity: {what} from {least:g} to {most:g}; the first must be above zero and the"
                    " second not below it, for example 15 to 50"
                )


# Common practice, no source. A developer's range is wide because white sheets use less of it than black.
TRADE: dict[FormulaKind, Limits] = {
    "developer": Limits((15, 50), (4, 8)),
    "bleach": Limits((4, 15), (2, 4)),
    "clearing": Limits((20, 40), (6, 12)),
    "fixer": Limits((15, 40), (8, 24)),
}
# Clearing or bleaching in twice the fresh time: mix fresh. Practice borrowed from fixers, no source.
SPENT_TIME_RATIO = 2.0


@dataclass(frozen=True)
class Use:
    """What a bath has done so far.

    sheets_8x10: area through it, in sheets of 8x10 inches. visits: how often each sheet goes through
    (the developer of a reversal print is visited twice). age_h: hours in the open tray [h].
    fresh_s, now_s: time the work took when fresh and takes now [s], where it can be seen.
    """

    sheets_8x10: float = 0.0
    visits: int = 1
    age_h: float = 0.0
    fresh_s: float | None = None
    now_s: float | None = None

    def __post_init__(self) -> None:
        if not 0 <= self.sheets_8x10 < float("inf") or not 0 <= self.age_h < float("inf"):
            raise InputError("capacity: sheets and hours cannot be less than none, for example 12 and '3 h'")
        if not 1 <= self.visits <= 10:
            raise InputError(f"capacity: {self.visits} visits a sheet; allowed is 1 to 10")
        if (self.fresh_s is None) != (self.now_s is None):
            raise InputError("capacity: give both times, fresh and now, or neither")
        for seconds in (self.fresh_s, self.now_s):
            if seconds is not None:
                above_zero(seconds, "time to clear", "s", "90 s")


@dataclass(frozen=True)
class Left:
    """Sheets of 8x10 before use begins to tell and before it ends, and why the bath is in its state."""

    state: State
    least_sheets: float
    most_sheets: float
    reasons: tuple[str, ...]


def left(limits: Limits, volume_ml: float, use: Use) -> Left:
    """What `volume_ml` [mL] of working solution still has in it. Raises `InputError` for no volume."""
    above_zero(volume_ml, "volume", "mL", "1 L")
    used = use.sheets_8x10 * use.visits
    ends = [per_l * volume_ml / 1000 for per_l in limits.sheets_per_l]
    found: list[tuple[State, str]] = [
        (_state(used, ends[0], ends[1]), f"{used:g} sheet-visits of 8x10, of {ends[0]:.4g} to {ends[1]:.4g}"),
        (_state(use.age_h, *limits.tray_h), _age(use.age_h, limits)),
    ]
    if use.fresh_s and use.now_s:
        ratio = use.now_s / use.fresh_s
        found.append((_state(ratio, 1.5, SPENT_TIME_RATIO), f"takes {ratio:.2g} × its fresh time"))
    least, most = (max(0.0, end - used) / use.visits for end in ends)
    worst = _SEVERITY[max(_SEVERITY.index(state) for state, _ in found)]
    return Left(worst, least, most, tuple(f"{text}: {state}" for state, text in found))


def _age(age_h: float, limits: Limits) -> str:
    return f"{age_h:g} h in the tray, of {limits.tray_h[0]:.3g} to {limits.tray_h[1]:.3g}"


def _state(used: float, least: float, most: float) -> State:
    if used >= most:
        return "mix fresh"
    return "watch" if used >= least else "good"
