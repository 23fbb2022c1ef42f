"""Opening a notebook: the right file, the right version, safe settings, and one clear line for what is wrong.

The journal mode stays SQLite's own 'delete': write-ahead logging would be safe on a local disk too, but it
keeps the newest pages in a second file, and a printer who copies only the first would lose them.
"""

import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from footlight import whole_file
from footlight.errors import InputError, act, field
from footlight.notebook import leftovers
from footlight.notebook.errors import NotebookError
from footlight.notebook.migrate import APPLICATION_ID, migrate, newest, version_of
from footlight.notebook.place import refuse_network

BUSY_WAIT_S = 2.0

_TOLD = {
    sqlite3.SQLITE_NOTADB: "is no notebook, or is damaged; name another file, or restore a back-up",
    sqlite3.SQLITE_CORRUPT: "is damaged; restore a back-up, and keep this file for what can be saved of it",
    sqlite3.SQLITE_BUSY: "is in use by another program; close that one, or wait, and repeat the command",
    sqlite3.SQLITE_LOCKED: "is in use by another program; close that one, or wait, and repeat the command",
    sqlite3.SQLITE_READONLY: "cannot be written: file or folder is read-only; nothing was changed",
    sqlite3.SQLITE_CANTOPEN: "cannot be opened; is there such a folder, and may you write in it?",
    sqlite3.SQLITE_FULL: "cannot be written: the disk is full; nothing was changed",
    sqlite3.SQLITE_IOERR: "cannot be read or written: the disk reports an error",
}
# The module's own words for a text that is none; it gives no code with them.
_UNREADABLE = "Could not decode to UTF-8"


@contextmanager
def notebook(path: Path, *, writing: bool, making: bool = True) -> Iterator[sqlite3.Connection]:
    """An open notebook of the newest version; made if it is to be written and is not there.

    making: False for what is only written about something that is in it already.

    Raises NotebookError, one line, for anything that is wrong with the file, now or while it is used.
    """
    with told(path):
        connection = _open(path, writing and making)
        try:
            yield connection
        finally:
            connection.close()


@contextmanager
def transaction(connection: sqlite3.Connection) -> Iterator[None]:
    """All or nothing."""
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
        connection.execute("COMMIT")
    except BaseException:
        # A commit that failed has left the transaction open; some errors have ended it already.
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise


def _open(path: Path, making: bool) -> sqlite3.Connection:
    refuse_network(path)
    if not path.exists():
        if not making:
            raise NotebookError(
                f"{path}: no notebook there yet; {act('collect')} makes it, or the first paper or bath that"
                " you write down"
            )
        path.parent.mkdir(parents=True, exist_ok=True)
        leftovers.clear_for(path)
    elif not path.is_file():
        raise NotebookError(
            f"{path}: a folder or a device, which cannot be opened as a notebook; name a file"
        )
    elif _stays_empty(path):
        raise NotebookError(
            f"{path}: an empty file, no notebook; restore a back-up, or delete it to begin anew"
        )
    leftovers.refuse_strange(path)
    connection = _connect(path, "rwc" if making else "rw")
    try:
        _check(connection, path)
        _bring_up_to_date(connection, path)
    except BaseException:
        connection.close()
        raise
    return connection


def _stays_empty(path: Path) -> bool:
    # Another program may be making it at this moment.
    until_s = time.monotonic() + BUSY_WAIT_S
    while path.stat().st_size == 0:
        if time.monotonic() > until_s:
            return True
        time.sleep(0.02)
    return False


def _connect(path: Path, mode: str) -> sqlite3.Connection:
    # SQLite itself falls back to reading only when the file cannot be written.
    address = f"{path.absolute().as_uri()}?mode={mode}"
    connection = sqlite3.connect(address, uri=True, timeout=BUSY_WAIT_S, isolation_level=None)
    connection.row_factory = sqlite3.Row
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA synchronous = FULL")
    # No page of a change is written before the first one is (leftovers tells by it whose journal it is).
    connection.execute("PRAGMA cache_spill = OFF")
    return connection


def _check(connection: sqlite3.Connection, path: Path) -> None:
    version = version_of(connection)
    if version > newest():
        raise NotebookError(
            f"{path}: written by a newer footlight (version {version}, this one knows {newest()}); "
            "update footlight on this computer"
        )
    empty = connection.execute("SELECT count(*) FROM sqlite_master").fetchone()[0] == 0
    if not empty and connection.execute("PRAGMA application_id").fetchone()[0] != APPLICATION_ID:
        raise NotebookError(
            f"{path}: this is another program's file, no notebook; name another with {field('notebook')}"
        )


def _bring_up_to_date(connection: sqlite3.Connection, path: Path) -> None:
    version = version_of(connection)
    if version == newest():
        return
    if version:
        before = path.with_name(f"{path.stem}.version-{version}{path.suffix}")
        with told(before, "copy"), whole_file.whole(before, replacing=True) as part:
            copy_to(connection, part)
    migrate(connection)


def copy_to(connection: sqlite3.Connection, target: Path) -> None:
    """A whole copy of an open notebook, by SQLite's own back-up."""
    with closing(sqlite3.connect(target)) as copy:
        connection.backup(copy)


def checked_copy(connection: sqlite3.Connection, target: Path) -> list[str]:
    """A copy in a new file, which is read through before it gets its name -> what is spoilt in it, as it is
    in the notebook.

    Raises InputError if there is such a file already, NotebookError if none can be written or the copy is not
    whole.
    """
    if not target.absolute().parent.is_dir():
        raise InputError(f"{target}: there is no such folder")
    with told(target, "copy"), whole_file.whole(target) as part:
        copy_to(connection, part)
        spoilt = refuse_broken(part, target)
        leftovers.clear_for(target)
    return spoilt


def refuse_broken(part: Path, target: Path) -> list[str]:
    """Raise NotebookError where `part`, which is to be `target`, is no notebook to go on with -> what is
    spoilt in it."""
    # Only here: no other command waits for hashes.
    from footlight.notebook import soundness

    with closing(sqlite3.connect(part)) as copy:
        copy.row_factory = sqlite3.Row
        wrong = soundness.broken(copy)
        spoilt = [] if wrong else soundness.spoilt(copy)
    if wrong:
        more = f" and {len(wrong) - 1} more" if len(wrong) > 1 else ""
        raise NotebookError(
            f"{target}: not written, for what it would hold is damaged ({wrong[0]}{more}); keep every older "
            f"copy, and see what {act('check')} says of the notebook"
        )
    return spoilt


@contextmanager
def told(path: Path, what: str = "notebook") -> Iterator[None]:
    """What SQLite or the disk says is wrong with the file at `path`, as a NotebookError of one line."""
    try:
        yield
    except sqlite3.DatabaseError as error:
        # An extended code holds the primary one in its low byte.
        code = getattr(error, "sqlite_errorcode", 0) & 0xFF
        if _UNREADABLE in str(error):
            code = sqlite3.SQLITE_CORRUPT
        if code not in _TOLD:
            raise
        raise NotebookError(f"{path}: the {what} {_TOLD[code]}") from error
    except UnicodeDecodeError as error:
        raise NotebookError(f"{path}: the {what} {_TOLD[sqlite3.SQLITE_CORRUPT]}") from error
    except OverflowError as error:
        raise NotebookError(
            f"{path}: no number in a notebook has so many digits; write a smaller one"
        ) from error
    except OSError as error:
        raise NotebookError(f"{path}: {error.strerror or error}") from error
