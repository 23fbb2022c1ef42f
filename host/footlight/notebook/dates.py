"""When something was, from the times that computers told the controller.

The controller has no clock of the date. A record whose controller was told the time since it was switched on
has a date; any other lies between what is known before and after it.
"""

import sqlite3
import time
from dataclasses import dataclass

from footlight_core import records


@dataclass(frozen=True)
class When:
    """Seconds since 1970: both the same when known, else bounds; None where there is no bound."""

    from_unix_s: int | None
    to_unix_s: int | None


def when(connection: sqlite3.Connection, epoch_id: int, number: int, boot: int, t_ms: int) -> When:
    """When record `number`, `t_ms` after its controller was switched on (stretch `boot`), was written."""
    anchor = _nearest(connection, epoch_id, boot, t_ms)
    if anchor is not None:
        known_s = anchor["unix_s"] + round((t_ms - anchor["t_ms"]) / 1000)
        return When(known_s, known_s)
    return _between(_before(connection, epoch_id, number), _after(connection, epoch_id, number))


def _nearest(connection: sqlite3.Connection, epoch_id: int, boot: int, t_ms: int) -> sqlite3.Row | None:
    # The nearest in time, for the controller's clock drifts: of the last before and the first after it.
    return connection.execute(
        "SELECT t_ms, unix_s FROM"
        " (SELECT * FROM (SELECT t_ms, unix_s FROM anchors WHERE epoch_id = :epoch AND boot = :boot"
        " AND t_ms <= :t_ms ORDER BY t_ms DESC LIMIT 1)"
        " UNION ALL SELECT * FROM (SELECT t_ms, unix_s FROM anchors WHERE epoch_id = :epoch AND boot = :boot"
        " AND t_ms > :t_ms ORDER BY t_ms LIMIT 1)) ORDER BY abs(t_ms - :t_ms) LIMIT 1",
        {"epoch": epoch_id, "boot": boot, "t_ms": t_ms},
    ).fetchone()


def _before(connection: sqlite3.Connection, epoch_id: int, number: int) -> int | None:
    row = connection.execute(
        "SELECT unix_s FROM anchors WHERE epoch_id = ? AND number < ? ORDER BY number DESC LIMIT 1",
        (epoch_id, number),
    ).fetchone()
    return row["unix_s"] if row else None


def _after(connection: sqlite3.Connection, epoch_id: int, number: int) -> int | None:
    """When the time is next known, or when the record was read."""
    row = connection.execute(
        "SELECT boot, t_ms, unix_s FROM anchors WHERE epoch_id = ? AND number > ? ORDER BY number LIMIT 1",
        (epoch_id, number),
    ).fetchone()
    if row:
        # If the controller was surely switched on in between, it was so before that.
        on_ms = row["t_ms"] if _is_boot(connection, epoch_id, row["boot"]) else 0
        return row["unix_s"] - on_ms // 1000
    row = connection.execute(
        "SELECT read_unix_s FROM journal WHERE epoch_id = ? AND number = ?", (epoch_id, number)
    ).fetchone()
    return row["read_unix_s"] if row else None


def _is_boot(connection: sqlite3.Connection, epoch_id: int, number: int) -> bool:
    row = connection.execute(
        "SELECT line FROM journal WHERE epoch_id = ? AND number = ?", (epoch_id, number)
    ).fetchone()
    record = records.unseal(row["line"].encode()) if row else None
    return record is not None and record["k"] == "boot"


def _between(from_s: int | None, to_s: int | None) -> When:
    if from_s is not None and to_s is not None and from_s > to_s:
        # A computer's clock was wrong: no bound is better than a false one.
        return When(None, None)
    return When(from_s, to_s)


def date_text(unix_s: int) -> str:
    """A moment in the computer's local time."""
    return time.strftime("%Y-%m-%d %H:%M", time.localtime(unix_s))


def when_text(when: When) -> str:
    """A moment that may only be known between two others."""
    least, most = when.from_unix_s, when.to_unix_s
    if least is not None and most is not None:
        if least == most:
            return date_text(least)
        return f"date unknown, between {date_text(least)} and {date_text(most)}"
    if most is not None:
        return f"date unknown, before {date_text(most)}"
    return "date unknown" if least is None else f"date unknown, after {date_text(least)}"
