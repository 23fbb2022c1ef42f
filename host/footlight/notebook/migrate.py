"""From whatever version a notebook has to the newest, one numbered step after the other."""

import sqlite3
from collections.abc import Iterator
from pathlib import Path

APPLICATION_ID = 0x464C4E42  # tells a notebook from other people's SQLite files
_STEPS = Path(__file__).with_name("steps")


def all_steps() -> list[tuple[int, str]]:
    """Every step as (the version that it leads to, its SQL), in order."""
    # By path: importlib.resources would cost every command a tenth of its start.
    return [(int(path.name[:4]), path.read_text("utf-8")) for path in sorted(_STEPS.glob("*.sql"))]


def newest() -> int:
    """The version that this program writes."""
    return all_steps()[-1][0]


def version_of(connection: sqlite3.Connection) -> int:
    """The version of an open notebook; 0 when it is empty."""
    return connection.execute("PRAGMA user_version").fetchone()[0]


def migrate(connection: sqlite3.Connection, up_to: int | None = None) -> int:
    """Take every step that is missing, each in a transaction of its own. Returns how many were taken."""
    taken = 0
    for version, sql in all_steps():
        if version <= version_of(connection) or (up_to is not None and version > up_to):
            continue
        _take(connection, version, sql)
        taken += 1
    return taken


def _take(connection: sqlite3.Connection, version: int, sql: str) -> None:
    connection.execute("BEGIN IMMEDIATE")
    try:
        if version_of(connection) >= version:
            # Another program has just taken it.
            connection.execute("ROLLBACK")
            return
        for statement in statements(sql):
            connection.execute(statement)
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        connection.execute(f"PRAGMA user_version = {version}")
        connection.execute("COMMIT")
    except BaseException:
        # A file that cannot be written has ended the transaction by itself.
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise


def statements(sql: str) -> Iterator[str]:
    """The statements of a script; `executescript` would commit between them."""
    gathered = ""
    for line in sql.splitlines(keepends=True):
        gathered += line
        if sqlite3.complete_statement(gathered):
            yield gathered.strip()
            gathered = ""
