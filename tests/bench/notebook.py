"""A notebook of 100 000 prints: list and show against the bare start-up, and an evening's import into it."""

import sqlite3
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.bench._timing import process, ratio, seconds

from footlight.notebook import bring
from footlight.notebook.book import notebook
from footlight_core import records

PRINTS = 100_000
_STEPS = 10
_TOOL = [sys.executable, "-c", "from footlight.cli.main import run; run()"]
_SHA = "ab" * 8
_NOW = 1_772_388_000


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
        ((n, epoch, n, n * 25, _SHA, _NOW + n, _NOW + n) for n in range(1, PRINTS + 1)),
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
    connection.execute("COMMIT")
    return epoch


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


def rows() -> list[tuple]:
    """The promises of the notebook."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "notebook.sqlite"
        with notebook(path, writing=True) as connection:
            epoch = fill(connection)
            lines = evening(bring.next_number(connection, epoch))
            import_s = seconds(lambda: bring.bring(connection, epoch, lines, _NOW))
        start = process([*_TOOL, "--version"])
        listed = ratio(process([*_TOOL, "sheets", "--notebook", str(path)]), start)
        shown = ratio(process([*_TOOL, "sheet", f"{PRINTS // 2}", "--notebook", str(path)]), start)
    note = f"in a notebook of {PRINTS} prints"
    return [
        ("list of sheets / bare start-up", listed, 3.0, "×", note),
        ("one sheet / bare start-up", shown, 3.0, "×", note),
        ("import of 30 prints", import_s, 1.0, "s", f"{len(lines)} records, {note}"),
    ]
