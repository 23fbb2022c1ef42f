"""What has become of baths, light setups and firmware since a moment: facts, not yet words."""

import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass

from footlight.notebook.acts import standing
from footlight.notebook.stock import baths
from footlight.notebook.stock.baths import Bath
from footlight_core import records


@dataclass(frozen=True)
class Accepted:
    """A reference that was written into a setups file."""

    setup: str
    before: str
    after: str
    done_unix_s: int


def bath_at(known: Iterable[Bath], name: str, at_unix_s: int) -> Bath | None:
    """The bath of that name that was in use at a moment. known: the oldest first, as of `baths.every`."""
    standing = None
    for bath in known:
        begun = bath.mixed_unix_s <= at_unix_s
        ended = bath.ended_unix_s is not None and bath.ended_unix_s <= at_unix_s
        if begun and not ended and baths.same_name(bath.name, name):
            standing = bath
    return standing


def accepted_since(connection: sqlite3.Connection, setups: Iterable[str], from_unix_s: int) -> list[Accepted]:
    """References of these setups that were accepted after a moment, in order."""
    rows = connection.execute(
        "SELECT setup, reference_before, reference_after, acts.done_unix_s FROM light_setups"
        f" {standing('light_setups')} WHERE acts.done_unix_s > ? ORDER BY light_setups.id",
        (from_unix_s,),
    ).fetchall()
    wanted = set(setups)
    return [Accepted(*row) for row in rows if row["setup"] in wanted]


def build_of_run(connection: sqlite3.Connection, controller: str, epoch: str, run: int) -> int | None:
    """The firmware's build in that run, None where its record is damaged."""
    return _build(
        connection,
        "JOIN runs ON runs.epoch_id = journal.epoch_id AND runs.boot = journal.number"
        " WHERE epochs.controller_id = ? AND epochs.epoch = ? AND runs.run = ?",
        (controller, epoch, run),
    )


def build_now(connection: sqlite3.Connection, controller: str) -> int | None:
    """The firmware's build when that controller's journal was last brought home."""
    # The last record tells when the controller was last switched on: no search through all of them.
    return _build(
        connection,
        "WHERE journal.epoch_id = (SELECT max(id) FROM epochs WHERE controller_id = :controller)"
        " AND journal.number = (SELECT boot FROM journal AS last WHERE last.epoch_id ="
        " (SELECT max(id) FROM epochs WHERE controller_id = :controller) ORDER BY last.number DESC LIMIT 1)",
        {"controller": controller},
    )


def _build(
    connection: sqlite3.Connection, where: str, values: tuple[object, ...] | dict[str, object]
) -> int | None:
    row = connection.execute(
        f"SELECT journal.line FROM journal JOIN epochs ON epochs.id = journal.epoch_id {where}", values
    ).fetchone()
    record = records.unseal(row["line"].encode()) if row else None
    return record.get("build") if record and record.get("k") == "boot" else None
