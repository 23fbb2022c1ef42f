"""The history of light setups: every reference exposure that was written into a light-setups file."""

import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass

from footlight.notebook.acts import standing


@dataclass(frozen=True)
class Change:
    """A reference that was written. before: '' where the setup had none. reading_id: of the strip."""

    file: str
    setup: str
    before: str
    after: str
    reading_id: int | None = None

    def reversed(self) -> "Change":
        """The way back."""
        return Change(self.file, self.setup, self.after, self.before, self.reading_id)


@dataclass(frozen=True)
class Dated(Change):
    """A change, and when it was made."""

    done_unix_s: int = 0


_CHANGE = "file, setup, reference_before AS before, reference_after AS after, reading_id"


def note(connection: sqlite3.Connection, act_id: int, changes: list[Change]) -> None:
    """Note changes within an act."""
    connection.executemany(
        "INSERT INTO light_setups (act_id, file, setup, reference_before, reference_after, reading_id)"
        " VALUES (?, ?, ?, ?, ?, ?)",
        [
            (act_id, change.file, change.setup, change.before, change.after, change.reading_id)
            for change in changes
        ],
    )


def of_act(connection: sqlite3.Connection, act_id: int) -> list[Change]:
    """What an act wrote, in order."""
    rows = connection.execute(
        f"SELECT {_CHANGE} FROM light_setups WHERE act_id = ? ORDER BY id", (act_id,)
    ).fetchall()
    return [Change(**dict(row)) for row in rows]


def history(connection: sqlite3.Connection, most: int) -> list[Dated]:
    """The changes that stand, the newest first."""
    rows = connection.execute(
        f"SELECT {_CHANGE}, acts.done_unix_s FROM light_setups {standing('light_setups')}"
        " ORDER BY light_setups.id DESC LIMIT ?",
        (most,),
    ).fetchall()
    return [Dated(**dict(row)) for row in rows]


def readings_behind(connection: sqlite3.Connection, setups: Iterable[str], at_unix_s: int) -> list[int]:
    """Numbers of the readings that the references of these setups came from at a moment; of each the last."""
    rows = connection.execute(
        f"SELECT setup, reading_id FROM light_setups {standing('light_setups')}"
        " WHERE reading_id IS NOT NULL AND acts.done_unix_s <= ? ORDER BY light_setups.id",
        (at_unix_s,),
    ).fetchall()
    last = {row["setup"]: row["reading_id"] for row in rows}
    return list(dict.fromkeys(last[name] for name in setups if name in last))
