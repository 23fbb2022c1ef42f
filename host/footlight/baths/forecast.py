"""Will the baths last for this sequence? Use as the sheets come to them, age as the steps are reached."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from footlight.baths.condition import Condition, Shelf
from footlight.baths.planned import Planned, of_sequence
from footlight.baths.trays import counted
from footlight.chemistry.capacity import SPENT_TIME_RATIO
from footlight.quantities.age import format_age_h
from footlight.sequence.compiler import Compiled
from footlight.sequence.spans import Span, timeline

_ROUNDING = 1e-6


@dataclass(frozen=True)
class Need:
    """One visit to come. sheet: of the batch, from 1. in_h: from now until it begins, if nobody waits [h]."""

    sheet: int
    area_8x10: float
    in_h: float


@dataclass(frozen=True)
class Outlook:
    """One tray of a sequence, the bath in it, and the sheet before which it must be mixed fresh (from 1;
    None: it lasts), with the reason. per_sheet_8x10: what one sheet of the sequence takes of it."""

    tray: str
    condition: Condition
    per_sheet_8x10: float
    fresh_before: int | None
    why: str

    @property
    def sheets_left(self) -> tuple[int, int] | None:
        """How many whole sheets of this sequence before use begins to tell and before it ends."""
        left = self.condition.left
        if left is None:
            return None
        least, most = (
            int(area / self.per_sheet_8x10 + _ROUNDING) for area in (left.least_sheets, left.most_sheets)
        )
        return least, most

    @property
    def good_for(self) -> str:
        """`5 to 23 sheets`; '' without limits."""
        if self.sheets_left is None:
            return ""
        least, most = self.sheets_left
        span = f"{least} to {most}" if least < most else f"{most}"
        return f"{span} sheet{'' if most == 1 else 's'}"

    def warning(self, before: str) -> str:
        """A sentence; `before` says when: 'before this run'."""
        return f"Mix fresh {self.tray} {before}: {self.why}."


@dataclass(frozen=True)
class Forecast:
    """What the notebook says of a sequence's baths. unknown: trays whose bath it does not know."""

    outlooks: tuple[Outlook, ...]
    unknown: tuple[str, ...]
    sheets: int

    @property
    def warnings(self) -> list[str]:
        """A sentence for each bath that does not last."""
        return [
            outlook.warning(self._before(outlook.fresh_before))
            for outlook in self.outlooks
            if outlook.fresh_before
        ]

    def _before(self, sheet: int) -> str:
        return "before this run" if self.sheets == 1 else f"before sheet {sheet} of this batch"

    @property
    def unknown_text(self) -> str | None:
        """One sentence for all trays that the notebook knows nothing of."""
        if not self.unknown:
            return None
        trays = " and ".join(
            [", ".join(self.unknown[:-1]), self.unknown[-1]] if self.unknown[1:] else self.unknown
        )
        return (
            f"The notebook has no bath for {trays}: their use is not counted. Write them with"
            f" 'footlight bath mixed {self.unknown[0]} --volume \"1 l\"'."
        )


def forecast(compiled: Compiled, shelf: Shelf) -> Forecast:
    """What becomes of the baths of a sequence if it is begun now."""
    plan = of_sequence(compiled.sequence)
    needs = needs_of(plan, timeline(compiled.program), compiled.sequence.sheets)
    outlooks, unknown = [], []
    for tray in counted(compiled.sequence.trays):
        if tray.name not in needs:
            continue
        condition = shelf.named(tray.name)
        if condition is None:
            unknown.append(tray.name)
            continue
        outlooks.append(outlook(tray.name, condition, needs[tray.name], tray.life_sheets))
    return Forecast(tuple(outlooks), tuple(unknown), compiled.sequence.sheets)


def needs_of(plan: Planned, spans: Sequence[Span], sheets: int) -> dict[str, list[Need]]:
    """Every visit to come, by tray, in the order of time."""
    start_h = {(span.sheet, span.step_number): span.start_ms / 3_600_000 for span in spans}
    needs: dict[str, list[Need]] = {}
    for sheet in range(1, sheets + 1):
        for step, tray in plan.visits():
            need = Need(sheet, plan.sheet_8x10 or 1.0, start_h[sheet, step])
            needs.setdefault(tray, []).append(need)
    return needs


def outlook(tray: str, condition: Condition, needs: Sequence[Need], life_sheets: int) -> Outlook:
    """The first visit that the bath would not do well."""
    per_sheet = sum(need.area_8x10 for need in needs if need.sheet == 1)
    used = condition.used_8x10
    for need in needs:
        used += need.area_8x10
        why = _why_not(condition, used, need, life_sheets)
        if why:
            return Outlook(tray, condition, per_sheet, need.sheet, why)
    return Outlook(tray, condition, per_sheet, None, "")


def of_next_sheet(shelf: Shelf, plan: Planned, steps: Sequence[dict[str, Any]]) -> list[str]:
    """What one more sheet of a sequence would spoil, a sentence each. steps: of its program."""
    needs = needs_of(plan, timeline({"steps": steps, "sheets": 1}), 1)
    warnings = []
    for tray, visits in needs.items():
        condition = None if tray in plan.one_sheet else shelf.named(tray)
        if condition is not None:
            one = outlook(tray, condition, visits, plan.lives.get(tray, 0))
            warnings += [one.warning("before the next sheet")] if one.fresh_before else []
    return warnings


def _why_not(condition: Condition, used: float, need: Need, life_sheets: int) -> str:
    """Why a visit should not be paid to this bath, '' if it may."""
    times = condition.times
    if times and times.now_s / times.fresh_s >= SPENT_TIME_RATIO:
        return f"it takes {times.now_s / times.fresh_s:.2g} × its fresh time"
    if life_sheets and condition.sheets + need.sheet > life_sheets:
        return f"its tray is to serve {life_sheets} sheets, and this is sheet {condition.sheets + need.sheet}"
    known = condition.known
    if known is None:
        return ""
    most = known.limits.sheets_per_l[1] * condition.bath.working_ml / 1000
    if used > most + _ROUNDING:
        return f"{used:.3g} of {most:.3g} sheets of 8x10 by then ({known.use_from})"
    age_h, most_h = condition.age_h + need.in_h, known.limits.tray_h[1]
    if age_h > most_h:
        return f"{format_age_h(age_h)} in its tray by then, of {most_h:.3g} h ({known.age_from})"
    return ""
