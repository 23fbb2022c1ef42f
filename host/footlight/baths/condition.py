"""How each bath stands now: used so far, left, its age, its clearing time, and what that makes of it."""

import sqlite3
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from footlight.baths import learning
from footlight.baths.learning import Judged, Key, Stood
from footlight.baths.limits import Known, key_of, known, usual
from footlight.baths.visits import Visit, seen
from footlight.chemistry.capacity import Left, State, Use, left
from footlight.notebook.journal import bath_steps
from footlight.notebook.sheets import verdicts
from footlight.notebook.stock import baths as notes
from footlight.notebook.stock.baths import Bath

_LEARN_FROM = 10  # of each name the last so many baths: an old notebook must not slow every plan


@dataclass(frozen=True)
class Times:
    """How long clearing or bleaching took, fresh and last [s]. by_eye: from the steps judged by eye in its
    tray, since nobody wrote a time."""

    fresh_s: float
    now_s: float
    by_eye: bool


@dataclass(frozen=True)
class Condition:
    """A bath at a moment. visits: all so far, in order. known: its limits, None where nobody knows any."""

    bath: Bath
    visits: tuple[Visit, ...]
    known: Known | None
    at_unix_s: int

    @property
    def used_8x10(self) -> float:
        """Area through it, each visit counted, in sheets of 8x10."""
        return sum(visit.area_8x10 for visit in self.visits)

    @property
    def sheets(self) -> int:
        """How many sheets have been in it."""
        return len({visit.sheet_id for visit in self.visits})

    @property
    def unsure(self) -> int:
        """How many of its visits may have been another bath's: the date of the run is not known."""
        return sum(not visit.sure for visit in self.visits)

    @property
    def age_h(self) -> float:
        """Hours in the open tray [h]."""
        return self.bath.age_h(self.at_unix_s)

    @property
    def life_sheets(self) -> int:
        """How many sheets the last sequence lets its filling serve, 0 where it says nothing."""
        return self.visits[-1].life_sheets if self.visits else 0

    @property
    def times(self) -> Times | None:
        """None where fewer than two times are known: then nothing can be compared."""
        times_s = [finding.value for finding in self.bath.all("clearing") if finding.value]
        by_eye = len(times_s) < 2
        if by_eye:
            times_s = [visit.cleared_s for visit in self.visits if visit.cleared_s]
        return Times(times_s[0], times_s[-1], by_eye) if len(times_s) > 1 else None

    @property
    def left(self) -> Left | None:
        """What it still has in it; None without limits."""
        if self.known is None:
            return None
        times = self.times
        use = Use(
            sheets_8x10=round(self.used_8x10, 3),
            age_h=round(self.age_h, 2),
            fresh_s=times.fresh_s if times else None,
            now_s=times.now_s if times else None,
        )
        return left(self.known.limits, self.bath.working_ml, use)

    @property
    def is_served_out(self) -> bool:
        """It has served as many sheets as the sequence lets its filling serve."""
        return 0 < self.life_sheets <= self.sheets

    @property
    def state(self) -> State | None:
        """good, watch, mix fresh; None where nobody knows its limits."""
        if self.is_served_out:
            return "mix fresh"
        return self.left.state if self.left else None


@dataclass(frozen=True)
class Shelf:
    """All conditions that were asked for, the oldest bath first."""

    conditions: tuple[Condition, ...]

    def named(self, name: str) -> Condition | None:
        """The bath in use of that name."""
        for condition in reversed(self.conditions):
            if condition.bath.ended_unix_s is None and notes.same_name(condition.bath.name, name):
                return condition
        return None

    @property
    def in_use(self) -> tuple[Condition, ...]:
        """Those that have not been emptied or replaced."""
        return tuple(condition for condition in self.conditions if condition.bath.ended_unix_s is None)


def shelf(connection: sqlite3.Connection, now_s: int, names: Iterable[str] | None = None) -> Shelf:
    """The last baths of these names (without `names`: of every name that has one in use), as they stand."""
    every = _lately(notes.every(connection), names)
    visits = seen(connection, every)
    by_bath: dict[int, list[Visit]] = {bath.id: [] for bath in every}
    for visit in visits:
        by_bath[visit.bath_id].append(visit)
    limits = _limits(every, _judged(connection, every, visits))
    conditions = []
    for bath in every:
        until_s = now_s if bath.ended_unix_s is None else min(now_s, bath.ended_unix_s)
        conditions.append(Condition(bath, tuple(by_bath[bath.id]), limits[_sort(bath)], until_s))
    return Shelf(tuple(conditions))


def _limits(every: Sequence[Bath], prints: Sequence[Judged]) -> dict[tuple[Key, str], Known | None]:
    """The limits of each sort of bath that there is."""
    alike: dict[tuple[Key, str], list[Bath]] = {}
    for bath in every:
        alike.setdefault(_sort(bath), []).append(bath)
    return {sort: known(baths[-1], baths, prints) for sort, baths in alike.items()}


def _sort(bath: Bath) -> tuple[Key, str]:
    return key_of(bath), bath.kind


def unknown_sheets(connection: sqlite3.Connection, shelf: Shelf) -> int:
    """How many sheets had a run, since the oldest bath in use was mixed, of a sequence that was not sent from
    this notebook: whether they were in these baths nobody knows."""
    mixed = [condition.bath.mixed_unix_s for condition in shelf.in_use]
    return bath_steps.unknown_sheets(connection, min(mixed)) if mixed else 0


def _lately(baths: Sequence[Bath], names: Iterable[str] | None) -> list[Bath]:
    wanted = {notes.tidy(name).casefold() for name in names} if names is not None else None
    if wanted is None:
        wanted = {bath.name.casefold() for bath in baths if bath.ended_unix_s is None}
    kept: list[Bath] = []
    for name in wanted:
        kept += [bath for bath in baths if bath.name.casefold() == name][-_LEARN_FROM:]
    return sorted(kept, key=lambda bath: (bath.mixed_unix_s, bath.id))


def _judged(connection: sqlite3.Connection, baths: Sequence[Bath], visits: Sequence[Visit]) -> list[Judged]:
    """The prints that say something, each with its baths as they were when it left them last."""
    stood = _stood({bath.id: bath for bath in baths}, visits)
    written = verdicts.of_sheets(connection, stood)
    number = {visit.sheet_id: visit.sheet for visit in visits}
    judged = []
    for sheet_id, verdict in written.items():
        good = learning.says(verdict)
        if good is not None:
            judged.append(Judged(number[sheet_id], good, tuple(stood[sheet_id].values())))
    return judged


def _stood(baths: dict[int, Bath], visits: Sequence[Visit]) -> dict[int, dict[int, Stood]]:
    """sheet -> bath -> how far it was used, with this sheet, when the sheet was in it last."""
    used = dict.fromkeys(baths, 0.0)
    by_sheet: dict[int, dict[int, Stood]] = {}
    for visit in visits:
        bath = baths[visit.bath_id]
        used[bath.id] += visit.area_8x10
        limits = usual(bath)
        if limits is None or not visit.sure:
            continue
        per_l = used[bath.id] / (bath.working_ml / 1000)
        stood = Stood(key_of(bath), limits, per_l, bath.age_h(visit.unix_s))
        by_sheet.setdefault(visit.sheet_id, {})[bath.id] = stood
    return by_sheet
