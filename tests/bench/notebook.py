"""A notebook of 100 000 prints: list and show against the bare start-up, and an evening's import into it."""

import sqlite3
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from starlette.testclient import TestClient
from tests.bench._timing import process, ratio, seconds

from footlight.desk.app import make_app
from footlight.desk.desk import Desk
from footlight.desk.guard import Keys
from footlight.notebook.book import notebook
from footlight.notebook.journal import bring, paper_home
from footlight_core import records

PRINTS = 100_000
_STEPS = 10
_TOOL = [sys.executable, "-c", "from footlight.cli.main import run; run()"]
_SHA = "ab" * 8
_NOW = 1_772_388_000
# What is measured, and the words that are typed.
_LOOKS = (
    ("list of sheets", "sheets"),
    ("one sheet", "sheet", f"{PRINTS // 2}"),
    ("search, a word of every print", "search", "hands"),
    ("search, a rare word", "search", "drop", "corner"),
    ("sheets of a common verdict", "sheets", "--verdict", "good"),
    ("sheets of a rare verdict", "sheets", "--verdict", "lost"),
    ("sheets of a paper", "sheets", "--paper", "box 7"),
    ("sheets since long ago", "sheets", "--since", "2018-01-01"),
    ("the last evenings", "session", "list"),
)
# A page of the desk, and the command that says the same.
_PAGES = (
    ("/prints", "sheets", "--last", "50"),
    (f"/prints/{PRINTS // 2}", "sheet", f"{PRINTS // 2}"),
    ("/prints?verdict=lost", "sheets", "--verdict", "lost", "--last", "50"),
    ("/prints/search?words=drop+corner", "search", "drop", "corner"),
    ("/stock", "paper", "list"),
    ("/history", "history"),
)


@dataclass(frozen=True)
class _Line:
    number: int
    line: str
    record: dict[str, Any]
    whole: bool = True


def fill(connection: sqlite3.Connection) -> int:
    """Rows as an import would have made them, written at once -> the epoch's key."""
    epoch = bring.epoch_id(connection, "box-1", "e1", _NOW)
    connection.execute("BEGIN")
    connection.executemany(
        "INSERT INTO runs VALUES (?, ?, ?, ?, 1, 0, 1, 'PENCIL', ?, 1, 'whole', ?, ?)",
        ((n, epoch, n, n * 25, _SHA, _when(n), _when(n)) for n in range(1, PRINTS + 1)),
    )
    connection.executemany(
        "INSERT INTO sheets (id, epoch_id, number) VALUES (?, ?, ?)",
        ((n, epoch, n) for n in range(1, PRINTS + 1)),
    )
    connection.executemany("INSERT INTO run_sheets VALUES (?, ?)", ((n, n) for n in range(1, PRINTS + 1)))
    connection.executemany(
        "INSERT INTO steps (run_id, sheet_id, step, first_number, real_ms, how)"
        " VALUES (?, ?, ?, ?, 60000, 'pedal')",
        ((n, n, step, n * 25 + step) for n in range(1, PRINTS + 1) for step in range(1, _STEPS + 1)),
    )
    connection.execute(
        "INSERT INTO journal VALUES (?, ?, '', 1, 1, NULL, ?)", (epoch, PRINTS * 25 + 25, _NOW)
    )
    _write_about(connection)
    connection.execute("COMMIT")
    return epoch


def _when(number: int) -> int:
    """Thirty prints an evening, one evening a day, the last of them today [s]."""
    return _NOW - (PRINTS - number) // 30 * 86_400 + number % 30 * 600


def _write_about(connection: sqlite3.Connection) -> None:
    """An act, a paper, a verdict and words about every print; each thousandth is lost and says why."""
    prints = range(1, PRINTS + 1)
    connection.executemany(
        "INSERT INTO acts (id, said, done_unix_s) VALUES (?, 'written', ?)", ((n, _NOW + n) for n in prints)
    )
    connection.executemany(
        "INSERT INTO batches VALUES (?, ?, ?, 'baryta', '8x10', 150)",
        ((n, n, f"box {n}") for n in range(1, PRINTS // 100 + 1)),
    )
    connection.executemany(
        "INSERT INTO papers_of_sheets VALUES (?, ?, ?, ?)", ((n, n, n, 1 + (n - 1) // 100) for n in prints)
    )
    connection.executemany(
        "INSERT INTO remarks VALUES (?, ?, ?, 'verdict', ?)",
        ((n, n, n, "good" if n % 1000 else "lost") for n in prints),
    )
    connection.executemany(
        "INSERT INTO remarks VALUES (?, ?, ?, 'note', ?)",
        (
            (PRINTS + n, n, n, "hands and a window" if n % 1000 else "hands, a drop from the corner")
            for n in prints
        ),
    )


def evening(first: int, prints: int = 30) -> list[_Line]:
    """The records of that many prints."""
    rows: list[dict[str, Any]] = [{"k": "boot", "reason": "power", "value": 0, "build": 1, "fresh": 0}]
    rows.append({"k": "date", "unix_s": _NOW + PRINTS + 1})
    for run in range(PRINTS + 1, PRINTS + 1 + prints):
        arm = {"k": "arm", "run": run, "slot": 1, "sha": _SHA, "title": "PENCIL", "sheet": run, "sheets": 1}
        rows.append(arm)
        for step in range(1, 13):
            at = {"run": run, "step": step, "sheet": run}
            rows.append({"k": "begin"} | at)
            rows.append({"k": "step"} | at | {"start": 0, "real_ms": 60_000, "how": "pedal"})
        rows.append({"k": "end", "run": run, "sheet": run, "how": "whole"})
    numbered = [row | {"n": number, "t": 1000 * number} for number, row in enumerate(rows, first)]
    return [_Line(row["n"], records.seal(row).decode(), row) for row in numbered]


def _bring_home(connection: sqlite3.Connection, epoch: int, lines: list[_Line]) -> None:
    """What `collect` does with a journal: records, runs, and the paper of the sheets."""
    brought = bring.bring(connection, epoch, lines, _NOW)
    filled = paper_home.fill_in(connection, epoch, brought.sheets, _NOW)
    assert sum(map(len, filled.given.values())) == len(brought.sheets)


def rows() -> list[tuple]:
    """The promises of the notebook."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "notebook.sqlite"
        with notebook(path, writing=True) as connection:
            epoch = fill(connection)
            lines = evening(bring.next_number(connection, epoch))
            import_s = seconds(lambda: _bring_home(connection, epoch, lines))
        start = process([*_TOOL, "--version"])
        book = ["--notebook", str(path)]
        measured = [(name, ratio(process([*_TOOL, *words, *book]), start)) for name, *words in _LOOKS]
        pages = _pages(path, book)
    note = f"in a notebook of {PRINTS} prints, each with paper, verdict and a note"
    return [
        *((f"{name} / bare start-up", measured_ratio, 2.5, "×", note) for name, measured_ratio in measured),
        *pages,
        ("import of 30 prints", import_s, 1.0, "s", f"{len(lines)} records, {note}"),
    ]


def _pages(path: Path, book: list[str]) -> list[tuple]:
    """Pages of the desk against the commands that say the same."""
    desk, home = Desk(path, path.parent), "http://127.0.0.1:8724"
    keys = Keys(frozenset({home.removeprefix("http://")}))
    browser = TestClient(make_app(desk, keys), home)
    browser.get(f"/history?token={keys.token}")
    measured = []
    for address, *words in _PAGES:
        page_s = min(
            seconds(lambda address=address: browser.get(address).raise_for_status()) for _ in range(5)
        )
        share = ratio(lambda address=address: browser.get(address), process([*_TOOL, *words, *book]))
        measured.append((f"page {address} / its command", share, 1.0, "×", f"{page_s * 1000:.0f} ms"))
    desk.close()
    return measured
