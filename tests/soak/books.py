"""The campaign on the notebook: the importing process is killed, and nothing that it acknowledged is lost.

As a script it is the process that is killed: it imports records and prints how far the notebook holds them.
"""

import random
import subprocess
import sys
import tempfile
import time
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from footlight.notebook.book import notebook
from footlight.notebook.journal.bring import bring, epoch_id, next_number
from footlight_core import records

PLACE = {"run": 1, "step": 1, "sheet": 1}
RECORDS = 240
SLICE = 6


@dataclass
class Entry:
    """A record as it comes over the cable."""

    number: int
    line: str
    record: dict[str, Any] | None
    whole: bool = True


def entries(first: int) -> list[Entry]:
    """A long invented journal of one run, from a number on."""
    boot = {"k": "boot", "reason": 0, "value": 0, "build": 1, "fresh": 1}
    arm = {"k": "arm", "run": 1, "slot": 1, "sha": "ab" * 8, "title": "PRINT", "sheet": 1, "sheets": 1}
    told = [boot, arm, *[{"k": "begin", **PLACE}] * (RECORDS - 2)]
    whole = [record | {"n": number + 1, "t": number * 1000} for number, record in enumerate(told)]
    return [Entry(record["n"], records.seal(record).decode(), record) for record in whole[first - 1 :]]


def import_all(path: Path) -> None:
    """Go on from where the notebook ends; a line on the output only for what is durable."""
    with notebook(path, writing=True) as connection:
        epoch = epoch_id(connection, "c", "e", 1_700_000_000)
        left = entries(next_number(connection, epoch))
        for at in range(0, len(left), SLICE):
            brought = bring(connection, epoch, left[at : at + SLICE], 1_700_000_000)
            assert brought.new == len(left[at : at + SLICE])
            print(left[min(at + SLICE, len(left)) - 1].number, flush=True)


def killed(seed: int) -> tuple[int, list[str], Counter[str]]:
    """Killed at random instants until it ends by itself; two at once now and then."""
    dice, breaches, counts = random.Random(seed), [], Counter[str]()
    with tempfile.TemporaryDirectory() as folder:
        path, held, found = Path(folder) / "notebook.db", 0, []
        for turn in range(12):
            told = _run_and_kill(path, None if turn == 11 else dice.random() * 0.25)
            counts["kills"] += turn < 11
            held = max([held, *told])
            found = _numbers(path)
            if found != list(range(1, len(found) + 1)) or len(found) < held:
                breaches.append(f"seed {seed}, turn {turn}: told {held}, holds {found[-3:]}")
        if len(found) != RECORDS:
            breaches.append(f"seed {seed}: {len(found)} of {RECORDS} records")
        before = path.read_bytes()
        _run_and_kill(path, None)
        if _numbers(path) != found:
            breaches.append(f"seed {seed}: importing again changed something")
        counts["same bytes after importing again"] += path.read_bytes() == before
    return 12, breaches, counts


def _run_and_kill(path: Path, after_s: float | None) -> list[int]:
    command = [sys.executable, "-m", "tests.soak.books", str(path)]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    assert process.stdout
    told = []
    if after_s is not None:
        # The instants that matter lie after the first write, not in starting Python.
        told = [process.stdout.readline()]
        time.sleep(after_s)
        process.kill()
    told += process.stdout.readlines()
    code = process.wait()
    process.stdout.close()
    assert after_s is not None or code == 0, "the import does not end by itself"
    return [int(line) for line in told if line.strip().isdigit()]


def _numbers(path: Path) -> list[int]:
    with notebook(path, writing=False) as connection:
        return [row[0] for row in connection.execute("SELECT number FROM journal ORDER BY number")]


if __name__ == "__main__":
    import_all(Path(sys.argv[1]))
