"""Baths: mixed, used, looked after, emptied. What became of one is a row of its own; nothing is changed.

A bath stands in the tray of its name from when it was mixed until it was emptied, or another of that name
was mixed.
"""

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from footlight import errors
from footlight.errors import InputError
from footlight.notebook.acts import act, standing
from footlight.notebook.errors import NotebookError


@dataclass(frozen=True)
class Mixed:
    """A bath to be written. formula: its name, '' if none. made_from: in words. volume_ml [mL]. holds: the
    formula as it was really mixed, as a text (`chemistry.formula.as_text`), '' where nobody said."""

    name: str
    formula: str
    made_from: str
    kind: str
    volume_ml: float
    mixed_unix_s: int
    holds: str = field(default="", kw_only=True)


@dataclass(frozen=True)
class Finding:
    """What became of a bath. value: see the table `bath_findings`; text: of a note."""

    kind: str
    value: float | None = None
    text: str = ""
    at_unix_s: int = 0


@dataclass(frozen=True)
class Bath(Mixed):
    """A bath as it is known. findings: in the order of their moments. ended_unix_s: when it left its tray
    for good, None while it is in use."""

    id: int
    findings: tuple[Finding, ...] = ()
    ended_unix_s: int | None = None

    def last(self, kind: str) -> Finding | None:
        """The last finding of a kind."""
        return next((finding for finding in reversed(self.findings) if finding.kind == kind), None)

    def all(self, kind: str) -> list[Finding]:
        """Every finding of a kind."""
        return [finding for finding in self.findings if finding.kind == kind]

    @property
    def working_ml(self) -> float:
        """All the working solution that went into it [mL]: what it was topped up with counts as bath."""
        return self.volume_ml + sum(finding.value or 0.0 for finding in self.all("topped"))

    @property
    def is_bottled(self) -> bool:
        """Out of its tray, in a bottle."""
        moves = [finding.kind for finding in self.findings if finding.kind in ("bottled", "poured")]
        return bool(moves) and moves[-1] == "bottled"

    def age_h(self, at_unix_s: float) -> float:
        """Hours in the open tray until then [h]; the time in a bottle is left out."""
        end_s = min(at_unix_s, self.ended_unix_s if self.ended_unix_s is not None else at_unix_s)
        open_s, since_s, is_open = 0.0, float(self.mixed_unix_s), True
        for finding in self.findings:
            if finding.kind not in ("bottled", "poured") or finding.at_unix_s >= end_s:
                continue
            open_s += finding.at_unix_s - since_s if is_open else 0.0
            since_s, is_open = finding.at_unix_s, finding.kind == "poured"
        open_s += max(0.0, end_s - since_s) if is_open else 0.0
        return open_s / 3600


def in_tray(bath: Bath, from_unix_s: int, to_unix_s: int) -> bool:
    """Did it stand in its tray, or its bottle, at any moment between these two, both included?"""
    ended = bath.ended_unix_s is not None and bath.ended_unix_s <= from_unix_s
    return bath.mixed_unix_s <= to_unix_s and not ended


def same_name(name: str, other: str) -> bool:
    """Names of trays are compared as printers type them."""
    return tidy(name).casefold() == tidy(other).casefold()


def tidy(name: str) -> str:
    """A name without blanks at its ends or doubled within."""
    return " ".join(name.split())


def mix(connection: sqlite3.Connection, mixed: Sequence[Mixed], now_s: int) -> list[int]:
    """Write baths as mixed, all in one act -> their ids. Raises InputError for a moment still to come."""
    said = "mixed " + ", ".join(f"{bath.name} ({bath.volume_ml:g} mL)" for bath in mixed)
    ids = []
    with act(connection, said, now_s) as act_id:
        for bath in mixed:
            if bath.mixed_unix_s > now_s:
                raise InputError(f"{bath.name}: mixed at a moment that is still to come")
            ids.append(_insert(connection, act_id, bath))
    return ids


def _insert(connection: sqlite3.Connection, act_id: int, bath: Mixed) -> int:
    cursor = connection.execute(
        "INSERT INTO baths (act_id, name, formula, made_from, kind, volume_ml, mixed_unix_s, holds)"
        " VALUES (:act_id, :name, :formula, :made_from, :kind, :volume_ml, :mixed_unix_s, :holds)",
        {"act_id": act_id} | vars(bath),
    )
    assert cursor.lastrowid is not None
    return cursor.lastrowid


def note(connection: sqlite3.Connection, findings: Sequence[tuple[Bath, Finding]], now_s: int) -> None:
    """Write what became of baths, all in one act.

    Raises InputError for a moment still to come, or outside the bath's life in its tray.
    """
    for bath, finding in findings:
        _check_moment(bath, finding, now_s)
    said = "; ".join(f"{bath.name}: {in_words(finding)}" for bath, finding in findings)
    with act(connection, said, now_s) as act_id:
        connection.executemany(
            "INSERT INTO bath_findings (act_id, bath_id, kind, value, text, at_unix_s)"
            " VALUES (?, ?, ?, ?, ?, ?)",
            [
                (act_id, bath.id, finding.kind, finding.value, finding.text, finding.at_unix_s)
                for bath, finding in findings
            ],
        )


def every(connection: sqlite3.Connection, name: str | None = None) -> list[Bath]:
    """Every bath (of that name), the oldest first."""
    rows = connection.execute(
        f"SELECT baths.* FROM baths {standing('baths')} ORDER BY mixed_unix_s, baths.id"
    ).fetchall()
    kept = [row for row in rows if name is None or same_name(row["name"], name)]
    return _with_lives([_bath(row) for row in kept], _findings(connection))


def in_use(connection: sqlite3.Connection) -> list[Bath]:
    """The baths that have not been emptied or replaced, the oldest first."""
    return [bath for bath in every(connection) if bath.ended_unix_s is None]


def current(connection: sqlite3.Connection, name: str) -> Bath:
    """The bath of that name that is in use. Raises NotebookError when there is none."""
    for bath in in_use(connection):
        if same_name(bath.name, name):
            return bath
    known = ", ".join(bath.name for bath in in_use(connection))
    raise NotebookError(
        f"bath '{name}': none of that name is in use"
        + (
            f"; there is {known}"
            if known
            else f"; {errors.act(f'bath mixed {name}')} with {errors.field('volume')} '1 l' begins one"
        )
    )


def _bath(row: sqlite3.Row) -> Bath:
    keys = ("name", "formula", "made_from", "kind", "volume_ml", "mixed_unix_s", "id", "holds")
    return Bath(**{key: row[key] for key in keys})


def _findings(connection: sqlite3.Connection) -> dict[int, tuple[Finding, ...]]:
    by_bath: dict[int, tuple[Finding, ...]] = {}
    rows = connection.execute(
        f"SELECT bath_findings.* FROM bath_findings {standing('bath_findings')}"
        " ORDER BY at_unix_s, bath_findings.id"
    )
    for row in rows:
        finding = Finding(row["kind"], row["value"], row["text"], row["at_unix_s"])
        by_bath[row["bath_id"]] = (*by_bath.get(row["bath_id"], ()), finding)
    return by_bath


def _with_lives(baths: list[Bath], findings: dict[int, tuple[Finding, ...]]) -> list[Bath]:
    whole = []
    next_mixed: dict[str, int] = {}
    for bath in reversed(baths):
        known = replace(bath, findings=findings.get(bath.id, ()))
        key = bath.name.casefold()
        ends = [next_mixed[key]] if key in next_mixed else []
        ends += [finding.at_unix_s for finding in known.all("emptied")]
        whole.append(replace(known, ended_unix_s=min(ends, default=None)))
        next_mixed[key] = bath.mixed_unix_s
    return whole[::-1]


def _check_moment(bath: Bath, finding: Finding, now_s: int) -> None:
    if finding.at_unix_s > now_s:
        raise InputError(f"{bath.name}: {finding.kind} at a moment that is still to come")
    if finding.at_unix_s < bath.mixed_unix_s:
        raise InputError(f"{bath.name}: {finding.kind} at a moment before it was mixed")
    if bath.ended_unix_s is not None and finding.at_unix_s > bath.ended_unix_s:
        raise InputError(f"{bath.name}: {finding.kind} after it was emptied or replaced")
    if finding.kind in ("bottled", "poured") and bath.is_bottled == (finding.kind == "bottled"):
        raise InputError(f"{bath.name}: it is {'bottled' if bath.is_bottled else 'in its tray'} already")


_UNITS = {"clearing": " s", "temperature": " °C", "topped": " mL", "sheets": " sheets of 8x10", "hours": " h"}


def in_words(finding: Finding) -> str:
    """`clearing 95 s`, `bottled`, or the note itself."""
    if finding.kind == "note":
        return finding.text
    unit = _UNITS.get(finding.kind)
    return f"{finding.kind} {finding.value:g}{unit}" if unit else finding.kind
