"""`make bench`: every speed and size that the project promises, as ratios taken in one run.

Each module beside this one has `rows()`, which measures and gives (name, value, limit, unit, note) or
(name, ratio, limit); what has no limit is only shown. A row over its limit is marked and makes the exit code
1; machines differ, so this is no part of `make test`.
"""

import importlib
import sys
from pathlib import Path

from rich.console import Console
from rich.progress import track
from rich.table import Table


def modules() -> list[str]:
    """The modules beside this one that measure something."""
    return sorted(path.stem for path in Path(__file__).parent.glob("[a-z]*.py"))


def filled(row: tuple) -> tuple:
    """A short row with its unit and note."""
    return row if len(row) == 5 else (*row, "×", "")


def main() -> int:
    """Measure, print, and say how many rows are over their limit."""
    console = Console()
    table = Table("what", "measured", "limit", "", "note")
    over = 0
    for name in track(modules(), "measuring", console=console, transient=True):
        for what, value, limit, unit, note in map(
            filled, importlib.import_module(f"tests.bench.{name}").rows()
        ):
            measured = "not measured" if value is None else f"{value:.3g} {unit}"
            good = value is None or limit is None or value <= limit
            over += not good
            allowed = "" if limit is None else f"≤ {limit:g} {unit}"
            table.add_row(what, measured, allowed, "" if good else "OVER", note)
    console.print(table)
    return 1 if over else 0


if __name__ == "__main__":
    sys.exit(main())
