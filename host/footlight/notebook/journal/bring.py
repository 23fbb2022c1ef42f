"""Bringing a journal home: records go in once, however often they are brought, and are then read.

Order is what makes it safe: the caller acknowledges to the controller only what `bring` has committed.
"""

import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any, Protocol

from footlight.notebook.book import transaction
from footlight.notebook.journal import derive

_BATCH = 200  # records a transaction: a link that breaks loses the reading of so many, and no record


class Arrived(Protocol):
    """One record as it came: `record` is None when it is damaged or, though whole, of an unknown kind."""

    @property
    def number(self) -> int: ...
    @property
    def line(self) -> str: ...
    @property
    def record(self) -> dict[str, Any] | None: ...
    @property
    def whole(self) -> bool: ...


@dataclass
class Brought:
    """What an import did. Numbers are those of records."""

    new: int = 0
    last: int = 0
    damaged: list[int] = field(default_factory=list)
    unknown: list[int] = field(default_factory=list)  # whole, but of a kind that a newer program writes
    differing: list[int] = field(default_factory=list)  # the notebook holds another line under that number
    runs: set[int] = field(default_factory=set)
    sheets: set[int] = field(default_factory=set)


def epoch_id(connection: sqlite3.Connection, controller: str, epoch: str, now_s: int) -> int:
    """The notebook's key of a controller's memory, made when it is new."""
    with transaction(connection):
        connection.execute("INSERT OR IGNORE INTO controllers VALUES (?, ?)", (controller, now_s))
        connection.execute(
            "INSERT OR IGNORE INTO epochs (controller_id, epoch, first_read_unix_s) VALUES (?, ?, ?)",
            (controller, epoch, now_s),
        )
    row = connection.execute(
        "SELECT id FROM epochs WHERE controller_id = ? AND epoch = ?", (controller, epoch)
    ).fetchone()
    return row["id"]


def next_number(connection: sqlite3.Connection, epoch: int) -> int:
    """The first record that the notebook does not have."""
    row = connection.execute(
        "SELECT max(number) AS last FROM journal WHERE epoch_id = ?", (epoch,)
    ).fetchone()
    return (row["last"] or 0) + 1


def bring(connection: sqlite3.Connection, epoch: int, arrived: Iterable[Arrived], now_s: int) -> Brought:
    """Put records in and read the runs that they belong to. What came before a failure stays."""
    brought = Brought()
    batch: list[Arrived] = []
    try:
        for entry in arrived:
            batch.append(entry)
            if len(batch) == _BATCH:
                _put(connection, epoch, batch, now_s, brought)
                batch = []
    finally:
        _put(connection, epoch, batch, now_s, brought)
    return brought


def note_kept(connection: sqlite3.Connection, epoch: int, last: int) -> None:
    """The controller was told that everything up to `last` is kept."""
    with transaction(connection):
        connection.execute("UPDATE epochs SET kept_number = max(kept_number, ?) WHERE id = ?", (last, epoch))


def _put(
    connection: sqlite3.Connection, epoch: int, batch: list[Arrived], now_s: int, brought: Brought
) -> None:
    if not batch:
        return
    with transaction(connection):
        boots = _Boots(connection, epoch, batch[0].number)
        runs: set[int] = set()
        for entry in batch:
            boot = boots.of(entry)
            if _insert(connection, epoch, entry, boot, now_s, brought) and entry.record:
                runs.add(entry.record.get("run", 0))
                derive.note_record(connection, epoch, boot, entry.record)
        runs.discard(0)
        for run in sorted(runs):
            brought.sheets |= derive.read_again(connection, epoch, run)
        derive.date_again(connection, epoch, batch[0].number)
    brought.runs |= runs


class _Boots:
    """Which records were written since the same switching-on: only their times can be compared.

    A damaged or missing record may have been the 'boot' itself, so after one a new stretch is begun.
    """

    def __init__(self, connection: sqlite3.Connection, epoch: int, number: int) -> None:
        row = connection.execute(
            "SELECT number, boot, whole FROM journal WHERE epoch_id = ? AND number < ?"
            " ORDER BY number DESC LIMIT 1",
            (epoch, number),
        ).fetchone()
        self._boot = row["boot"] if row else 0
        self._next = row["number"] + 1 if row and row["whole"] else 0

    def of(self, entry: Arrived) -> int:
        """The number of the record with which the stretch of this one begins."""
        if entry.number != self._next or (entry.record and entry.record["k"] == "boot"):
            self._boot = entry.number
        self._next = entry.number + 1 if entry.whole else 0
        return self._boot


def _insert(
    connection: sqlite3.Connection, epoch: int, entry: Arrived, boot: int, now_s: int, brought: Brought
) -> bool:
    """True when the record is new."""
    run = (entry.record.get("run") or None) if entry.record else None
    row = (epoch, entry.number, entry.line, int(entry.whole), boot, run, now_s)
    done = connection.execute("INSERT OR IGNORE INTO journal VALUES (?, ?, ?, ?, ?, ?, ?)", row)
    brought.last = max(brought.last, entry.number)
    if done.rowcount:
        brought.new += 1
        if not entry.whole:
            brought.damaged.append(entry.number)
        elif entry.record is None:
            brought.unknown.append(entry.number)
        return True
    known = connection.execute(
        "SELECT line FROM journal WHERE epoch_id = ? AND number = ?", (epoch, entry.number)
    ).fetchone()
    if known["line"] != entry.line:
        brought.differing.append(entry.number)
    return False
