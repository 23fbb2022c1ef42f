"""What has become of paper, baths, setups and firmware since a moment: facts, not yet words."""

import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass

from footlight.notebook import baths
from footlight.notebook.acts import standing
from footlight.notebook.baths import Bath
from footlight.notebook.errors import NotebookError
from footlight_core import records

FINDINGS = ("speed", "pre-flash", "second")


@dataclass(frozen=True)
class Batch:
    """A batch of paper. found: kind -> its last value that stands, for the kinds of `FINDINGS`."""

    id: int
    name: str
    paper: str
    size: str
    found: dict[str, float]


@dataclass(frozen=True)
class Accepted:
    """A reference that was written into a setups file."""

    setup: str
    before: str
    after: str
    done_unix_s: int


def batch_of_sheet(connection: sqlite3.Connection, sheet_id: int) -> Batch | None:
    """The paper of a sheet, None where it was never written down."""
    row = connection.execute(
        f"SELECT batch_id FROM papers_of_sheets {standing('papers_of_sheets')} WHERE sheet_id = ?"
        " ORDER BY papers_of_sheets.id DESC LIMIT 1",
        (sheet_id,),
    ).fetchone()
    return _batch(connection, row["batch_id"]) if row else None


def batch_in_use(connection: sqlite3.Connection, name: str | None = None) -> Batch | None:
    """The batch of that name, else the one that a sheet was last taken from, else the last bought.

    Raises NotebookError for a name that is not known.
    """
    if name is not None:
        row = connection.execute(
            f"SELECT batches.id FROM batches {standing('batches')} WHERE batches.name = ?"
            " ORDER BY batches.id DESC LIMIT 1",
            (name,),
        ).fetchone()
        if row is None:
            raise NotebookError(f"paper '{name}': no batch of that name is in the notebook")
        return _batch(connection, row["id"])
    row = connection.execute(
        f"SELECT batch_id FROM papers_of_sheets {standing('papers_of_sheets')}"
        " ORDER BY papers_of_sheets.id DESC LIMIT 1"
    ).fetchone()
    if row is None:
        row = connection.execute(
            f"SELECT batches.id AS batch_id FROM batches {standing('batches')}"
            " ORDER BY batches.id DESC LIMIT 1"
        ).fetchone()
    return _batch(connection, row["batch_id"]) if row else None


def bath_at(known: Iterable[Bath], name: str, at_unix_s: int) -> Bath | None:
    """The bath of that name that was in use at a moment. known: the oldest first, as of `baths.every`."""
    found = None
    for bath in known:
        begun = bath.mixed_unix_s <= at_unix_s
        ended = bath.ended_unix_s is not None and bath.ended_unix_s <= at_unix_s
        if begun and not ended and baths.same_name(bath.name, name):
            found = bath
    return found


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
    where = (
        "WHERE epochs.controller_id = ? AND journal.number = journal.boot"
        " ORDER BY journal.epoch_id DESC, journal.number DESC LIMIT 1"
    )
    return _build(connection, where, (controller,))


def _build(connection: sqlite3.Connection, where: str, values: tuple[object, ...]) -> int | None:
    row = connection.execute(
        f"SELECT journal.line FROM journal JOIN epochs ON epochs.id = journal.epoch_id {where}", values
    ).fetchone()
    record = records.unseal(row["line"].encode()) if row else None
    return record.get("build") if record and record.get("k") == "boot" else None


def _batch(connection: sqlite3.Connection, batch_id: int) -> Batch | None:
    row = connection.execute(
        f"SELECT batches.id, name, paper, size FROM batches {standing('batches')} WHERE batches.id = ?",
        (batch_id,),
    ).fetchone()
    if row is None:
        return None
    found = connection.execute(
        f"SELECT kind, value FROM batch_findings {standing('batch_findings')} WHERE batch_id = ?"
        " AND value IS NOT NULL ORDER BY batch_findings.id",
        (batch_id,),
    ).fetchall()
    values = {one["kind"]: one["value"] for one in found if one["kind"] in FINDINGS}
    return Batch(row["id"], row["name"], row["paper"], row["size"], values)
