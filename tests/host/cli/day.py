"""A notebook with one print of 8x10 in it, and commands as they are typed at it."""

import json
from pathlib import Path

import pytest
from tests.host import typed
from tests.host.notebook.journals import (
    BOOT,
    DATED,
    EVENING,
    PRINT,
    PRINT_PROGRAM,
    SHA,
    arm,
    write,
)

from footlight.cli.main import group
from footlight.notebook.book import notebook
from footlight.notebook.journal import bring, paper_home, programs


class Day:
    """The printer's commands, and a controller whose journal comes home."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def asked(self, line: str) -> str:
        """What a command prints."""
        return typed.asked(group, line)

    def json(self, line: str):
        """What it prints for a script."""
        return json.loads(self.asked(f"{line} --json"))

    def refused(self, line: str) -> str:
        """Its one line; nothing in the notebook is changed by it."""
        before = self.path.read_bytes() if self.path.is_file() else b""
        said = typed.refused(group, line)
        assert (self.path.read_bytes() if self.path.is_file() else b"") == before
        return said

    def home(
        self, *rows: tuple[object, ...], controller: str = "box-1", epoch: str = "e1"
    ) -> paper_home.Filled:
        """A journal comes home, as `collect` brings it."""
        with notebook(self.path, writing=True) as connection:
            key = bring.epoch_id(connection, controller, epoch, EVENING)
            first = bring.next_number(connection, key)
            brought = bring.bring(connection, key, write(*rows, first=first), EVENING + 3600)
            return paper_home.fill_in(connection, key, brought.sheets, EVENING + 3600)

    def know_program(self, size: str = "8x10") -> None:
        """The print's sequence was sent from here, for sheets of that size."""
        sequence = programs.Sequence(
            SHA, "PENCIL", "reversal print", PRINT_PROGRAM, f'sheet = "{size}"\n', ""
        )
        with notebook(self.path, writing=True) as connection:
            programs.store(connection, sequence, EVENING)


def dry(first: int, last: int, run: int = 1) -> list[tuple[object, ...]]:
    """A pre-flash of a batch: one light for each sheet."""
    rows: list[tuple[object, ...]] = [BOOT, DATED, arm(10_000, run, first, sheets=last - first + 1)]
    for sheet in range(first, last + 1):
        rows.append((11_000, "intent", run, 1, sheet, 2_000, 2_050, SHA[:16]))
        rows.append((14_000, "gave", run, 1, sheet, 2_050, 2_000, 0, "whole"))
    return [*rows, (20_000, "end", run, last, "whole")]


@pytest.fixture
def day(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Day:
    """Sheet 41 was printed; nothing was written about it."""
    path = tmp_path / "notebook.sqlite"
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", str(path))
    found = Day(path)
    found.home(*PRINT)
    return found
