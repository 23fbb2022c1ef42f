"""Is a notebook whole? Pages, indices, references, and the check sums of records, programs and pictures.

What SQLite looks at is its own structure; a bit that turned within a text is seen only by what the text
itself carries: a record its check sum, a program and a picture their hash.
"""

import hashlib
import json
import sqlite3
from collections.abc import Iterator

from footlight_core import wire

_MOST_TOLD = 20  # of one sort: who has more has no use for the rest


def broken(connection: sqlite3.Connection) -> list[str]:
    """What does not fit together, a line each: a file with any of it is no notebook to go on with.

    Raises sqlite3.DatabaseError where it cannot even be read.
    """
    return [*_structure(connection), *_references(connection)]


def spoilt(connection: sqlite3.Connection) -> list[str]:
    """What is no longer as it came, a line each: the rest of the notebook is as good as before."""
    return [*_records(connection), *_hashes(connection)]


def _structure(connection: sqlite3.Connection) -> list[str]:
    rows = connection.execute(f"PRAGMA integrity_check({_MOST_TOLD})")
    return [f"pages and indices: {row[0]}" for row in rows if row[0] != "ok"]


def _references(connection: sqlite3.Connection) -> list[str]:
    rows = connection.execute("PRAGMA foreign_key_check").fetchmany(_MOST_TOLD)
    return [f"table {row[0]}, row {row[1]}: refers to a row of {row[2]} that is not there" for row in rows]


def _records(connection: sqlite3.Connection) -> list[str]:
    """Records that were whole when they came, and are not now."""
    rows = connection.execute(
        "SELECT controller_id, number, CAST(line AS BLOB) AS line"
        " FROM journal JOIN epochs ON epochs.id = epoch_id WHERE whole = 1"
    )
    torn = (row for row in rows if not _is_whole(row["line"], row["number"]))
    return [
        f"record {row['number']} of controller {row['controller_id']}: its check sum does not fit"
        for row, _ in zip(torn, range(_MOST_TOLD), strict=False)
    ]


def _is_whole(line: bytes, number: int) -> bool:
    text = wire.unseal(line)
    return text is not None and json.loads(text).get("n") == number


def _hashes(connection: sqlite3.Connection) -> Iterator[str]:
    for row in connection.execute("SELECT sha256, CAST(program AS BLOB) AS data FROM programs"):
        if hashlib.sha256(row["data"]).hexdigest() != row["sha256"]:
            yield f"program {row['sha256'][:8]}: its hash does not fit"
    for row in connection.execute("SELECT id, name, sha256, data FROM pictures"):
        if hashlib.sha256(row["data"]).hexdigest() != row["sha256"]:
            yield f"picture {row['id']} ({row['name']}): its hash does not fit"
