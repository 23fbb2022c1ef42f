"""Visits of sheets to baths, from what the controllers recorded. Nobody types them.

A visit is a stretch of steps of one sheet in the same tray: fixing in two steps is one, the second
development is another of the developer. It counts against the bath that stood in the tray of that name when
it began, whole, however it ended. A sheet whose size nobody wrote counts as one of 8x10.
"""

import sqlite3
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, groupby, pairwise

from footlight.baths import planned
from footlight.baths.planned import Planned
from footlight.notebook.dates import When
from footlight.notebook.journal import bath_steps, programs
from footlight.notebook.journal.bath_steps import StepSeen
from footlight.notebook.stock.baths import Bath, tidy
from footlight_core import records
from footlight_core.program import kind_of


@dataclass(frozen=True)
class Visit:
    """One visit of a sheet to a bath.

    area_8x10: of the sheet, in sheets of 8x10. unix_s: when it began, at the latest. sure: it is certain
    that it was this bath. cleared_s: how long a step judged by eye took in it [s], ended by the pedal; else
    None. life_sheets: how many sheets the sequence lets its filling serve, 0 where it says nothing.
    """

    bath_id: int
    sheet_id: int
    sheet: int
    run_id: int
    step: int
    area_8x10: float
    unix_s: int
    sure: bool
    cleared_s: float | None
    life_sheets: int


def seen(connection: sqlite3.Connection, baths: Sequence[Bath]) -> tuple[Visit, ...]:
    """Every visit to these baths, in the order in which they were paid."""
    if not baths:
        return ()
    known = _Known(connection, baths)
    visits: list[Visit] = []
    steps = bath_steps.since(connection, min(bath.mixed_unix_s for bath in baths))
    for _, of_run in groupby(steps, key=lambda step: step.run_id):
        for own in _by_sheet(of_run):
            plan = known.planned(own[0].sha)
            visits += _of_sheet(own, plan, known) if plan else []
    return tuple(sorted(visits, key=lambda visit: (visit.unix_s, visit.run_id, visit.step)))


class _Known:
    """The baths by name, and what the notebook knows of sequences, each read once."""

    def __init__(self, connection: sqlite3.Connection, baths: Sequence[Bath]) -> None:
        self.connection = connection
        self.baths: dict[str, list[Bath]] = {}
        for bath in baths:
            self.baths.setdefault(tidy(bath.name).casefold(), []).append(bath)
        self._planned: dict[str | None, Planned | None] = {}
        self._steps: dict[str | None, list[dict]] = {}

    def planned(self, sha: str | None) -> Planned | None:
        if sha not in self._planned:
            source = programs.source(self.connection, sha)
            self._planned[sha] = planned.of_source(source) if source else None
        return self._planned[sha]

    def area(self, plan: Planned, sheet_id: int) -> float:
        """Of a sheet, in sheets of 8x10."""
        written = bath_steps.paper_size(self.connection, sheet_id) if plan.sheet_8x10 is None else None
        return plan.sheet_8x10 or planned.area_of(written) or 1.0

    def is_judged(self, step: StepSeen) -> bool:
        if step.sha not in self._steps:
            self._steps[step.sha] = programs.planned_steps(self.connection, step.sha)
        steps = self._steps[step.sha]
        return 0 < step.step <= len(steps) and kind_of(steps[step.step - 1]).is_judged()


def _by_sheet(steps: Iterable[StepSeen]) -> Iterable[list[StepSeen]]:
    by_sheet: dict[int, list[StepSeen]] = {}
    for step in steps:
        by_sheet.setdefault(step.sheet_id, []).append(step)
    return by_sheet.values()


def _of_sheet(steps: list[StepSeen], plan: Planned, known: _Known) -> list[Visit]:
    """The visits of one sheet in one run."""
    went = [step for step in steps if step.how != records.SKIPPED]
    firsts = planned.merged((place, _tray(step, plan)) for place, step in enumerate(went))
    visits: list[Visit] = []
    for (place, tray), (end, _) in pairwise([*firsts, (len(went), "")]):
        named = [] if tray in plan.one_sheet else known.baths.get(tidy(tray).casefold(), [])
        if named:
            visits += _visit(named, went[place:end], plan, known)
    return _in_order(visits)


def _in_order(visits: list[Visit]) -> list[Visit]:
    """After a power cut moments are only bounds: none may lie before that of the visit before."""
    moments = accumulate((visit.unix_s for visit in visits), max)
    return [replace(visit, unix_s=moment) for visit, moment in zip(visits, moments, strict=True)]


def _tray(step: StepSeen, plan: Planned) -> str:
    return plan.trays[step.step - 1] if 0 < step.step <= len(plan.trays) else ""


def _visit(named: list[Bath], stay: list[StepSeen], plan: Planned, known: _Known) -> list[Visit]:
    """The visit, if one of the baths of that name stood in the tray then."""
    first = stay[0]
    when = bath_steps.moment(known.connection, first)
    stood = _stood(named, when)
    if stood is None or when.to_unix_s is None:
        return []
    judged = [step for step in stay if step.how == records.PEDAL and step.real_ms and known.is_judged(step)]
    bath, sure = stood
    return [
        Visit(
            bath_id=bath.id,
            sheet_id=first.sheet_id,
            sheet=first.sheet,
            run_id=first.run_id,
            step=first.step,
            area_8x10=known.area(plan, first.sheet_id),
            unix_s=when.to_unix_s,
            sure=sure,
            cleared_s=(judged[0].real_ms or 0) / 1000 if judged else None,
            life_sheets=plan.lives.get(_tray(first, plan), 0),
        )
    ]


def _stood(named: list[Bath], when: When) -> tuple[Bath, bool] | None:
    """Which of the baths of a name stood in its tray then, and whether that is certain.

    Of several that may have stood there the newest is taken: it is the one that is still to be used, and a
    warning too early costs less than one too late. Nothing is known without a latest moment.
    """
    if when.to_unix_s is None:
        return None
    from_s, to_s = when.from_unix_s, when.to_unix_s
    possible = [
        bath
        for bath in named
        if bath.mixed_unix_s <= to_s
        and (bath.ended_unix_s is None or from_s is None or from_s < bath.ended_unix_s)
    ]
    if not possible:
        return None
    newest = possible[-1]
    # The last one ends after the latest moment, or the stretch would reach into a time without a bath.
    until_end = newest.ended_unix_s is None or to_s < newest.ended_unix_s
    sure = from_s is not None and newest.mixed_unix_s <= from_s and until_end
    return newest, sure
