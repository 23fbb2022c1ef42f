"""What the baths cost a plan: nothing without a notebook, little with one of 100 000 prints."""

import sys
import tempfile
from pathlib import Path

from tests.bench._timing import process, ratio
from tests.bench.notebook import PRINTS, fill

from footlight import sequence
from footlight.actions import send_sequence
from footlight.notebook.book import notebook
from footlight.notebook.journal import programs
from footlight.notebook.stock import baths
from footlight.notebook.stock.baths import Mixed

_TOOL = [sys.executable, "-c", "from footlight.cli.main import run; run()"]
_PRINT = Path(sequence.__file__).parents[1] / "examples" / "reversal-print.toml"
_KINDS = {"developer": "developer", "bleach": "bleach", "clear": "clearing", "fixer": "fixer"}
_DAY_S = 86_400
_EVENINGS = 50  # with baths of their own


def _filled(path: Path) -> None:
    """Prints of the shipped sequence, and the baths of the last evenings."""
    with notebook(path, writing=True) as connection:
        fill(connection)
        one = sequence.compile(sequence.load(_PRINT))
        programs.store(connection, send_sequence.as_kept(one), 0)
        connection.execute("UPDATE runs SET sha = ?", (one.sha256[:16],))
        last_s = connection.execute("SELECT max(to_unix_s) FROM runs").fetchone()[0]
        for ago in range(_EVENINGS, 0, -1):
            at_s = last_s - ago * _DAY_S
            mixed = [Mixed(name, "", "", kind, 1000.0, at_s) for name, kind in _KINDS.items()]
            baths.mix(connection, mixed, last_s)


def rows() -> list[tuple]:
    """The promises of the baths."""
    with tempfile.TemporaryDirectory() as folder:
        path, none = Path(folder) / "notebook.sqlite", Path(folder) / "none.sqlite"
        _filled(path)
        plan = [*_TOOL, "plan", str(_PRINT), "--notebook"]
        with_book = ratio(process([*plan, str(path)]), process([*plan, str(none)]))
        start = process([*_TOOL, "--version"])
        listed = ratio(process([*_TOOL, "bath", "list", "--notebook", str(path)]), start)
    note = f"in a notebook of {PRINTS} prints"
    return [
        ("plan with baths / plan without a notebook", with_book, 2.0, "×", note),
        ("list of baths / bare start-up", listed, 5.0, "×", note),
    ]
