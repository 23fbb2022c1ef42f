"""Two programs at one notebook: nothing acknowledged is lost, nothing is there twice, a copy is whole."""

import multiprocessing
import sqlite3
from pathlib import Path

from tests.soak.books import SLICE, entries

from footlight.notebook.book import checked_copy, notebook
from footlight.notebook.journal.bring import bring, epoch_id, next_number
from footlight.notebook.sheets import by_number
from footlight.notebook.sheets import entries as remark

NOW_S = 1_700_000_000
WITH = multiprocessing.get_context("spawn")


def collect(path: Path, told) -> None:
    """As 'footlight collect' does: a number is told only once it is durable."""
    while True:
        with notebook(path, writing=True) as connection:
            epoch = epoch_id(connection, "c", "e", NOW_S)
            left = entries(next_number(connection, epoch))
            if not left:
                return
            bring(connection, epoch, left[:SLICE], NOW_S)
        told.put(left[:SLICE][-1].number)


def write(path: Path, told) -> None:
    """A note a time."""
    for number in range(10):
        with notebook(path, writing=True) as connection:
            remark.write(
                connection, by_number.find(connection, 1), remark.SheetEntry(note=f"note {number}"), NOW_S
            )
        told.put(f"note {number}")


def back_up(path: Path, told) -> None:
    """Copies, each read through."""
    for number in range(3):
        with notebook(path, writing=False) as connection:
            told.put(checked_copy(connection, path.with_name(f"copy-{number}.sqlite")) == [])


def run_at_once(path: Path, *works) -> list[list]:
    """What each of the processes has told; all must end well."""
    queues = [WITH.Queue() for _ in works]
    processes = [
        WITH.Process(target=work, args=(path, told)) for work, told in zip(works, queues, strict=True)
    ]
    for process in processes:
        process.start()
    for process in processes:
        process.join(60)
    assert [process.exitcode for process in processes] == [0] * len(works)
    return [[told.get(timeout=5) for _ in range(told.qsize())] for told in queues]


def numbers(path: Path) -> list[int]:
    with sqlite3.connect(path) as connection:
        return [row[0] for row in connection.execute("SELECT number FROM journal ORDER BY number")]


def test_two_collects(tmp_path: Path):
    path = tmp_path / "n.sqlite"
    first, second = run_at_once(path, collect, collect)
    whole = [entry.number for entry in entries(1)]
    assert numbers(path) == whole and max([*first, *second]) == whole[-1]


def test_collect_write_and_backup(tmp_path: Path):
    path = tmp_path / "n.sqlite"
    with notebook(path, writing=True) as connection:
        bring(connection, epoch_id(connection, "c", "e", NOW_S), entries(1)[:SLICE], NOW_S)
    _, notes, copies = run_at_once(path, collect, write, back_up)
    assert numbers(path) == [entry.number for entry in entries(1)]
    with sqlite3.connect(path) as connection:
        found = {row[0] for row in connection.execute("SELECT text FROM remarks")}
    assert len(notes) == 10 and set(notes) <= found and copies == [True] * 3
