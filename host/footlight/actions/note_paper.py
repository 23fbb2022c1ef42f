"""What is found out about a batch of paper, counted off it, or given to it."""

from collections.abc import Sequence
from pathlib import Path

from footlight.errors import InputError, act, field
from footlight.notebook import acts
from footlight.notebook.book import notebook
from footlight.notebook.sheets import by_number
from footlight.notebook.stock import papers
from footlight.notebook.stock.papers import Batch, Finding
from footlight.quantities.spans import format_spans


def note_paper(book: Path, name: str, findings: Sequence[Finding], now_s: int) -> None:
    """Write findings about the batch of that name, all or none. Raises NotebookError where there is none,
    InputError without any finding."""
    if not findings:
        fields = ", ".join(field(name) for name in ("speed", "pre_flash", "second"))
        raise InputError(f"paper {name}: nothing to write; give {fields} or a note")
    with notebook(book, writing=True, making=False) as connection:
        papers.note_findings(connection, papers.find(connection, name), findings, now_s)


def count_off_paper(book: Path, name: str, count: int, why: str, now_s: int) -> Batch:
    """Count off sheets that never got a number -> the batch as it is then.

    Raises InputError for more than are left, NotebookError where there is no such batch.
    """
    with notebook(book, writing=True, making=False) as connection:
        batch = papers.find(connection, name)
        if count > batch.left:
            raise InputError(
                f"paper {name}: {count} spoiled, but only {max(0, batch.left)} left by the count;"
                f" {act(f'paper show {name}')} lists what was counted"
            )
        papers.note_findings(connection, batch, [Finding("spoiled", float(count), text=why)], now_s)
        return papers.find(connection, name)


def use_paper(book: Path, name: str, now_s: int) -> Batch:
    """From now on sheets of its size are taken to be of that batch. Raises NotebookError for no such."""
    with notebook(book, writing=True, making=False) as connection:
        batch = papers.find(connection, name)
        papers.note_findings(connection, batch, [Finding("use")], now_s)
    return batch


def assign_paper(book: Path, name: str, numbers: Sequence[int], controller: str | None, now_s: int) -> Batch:
    """Say of sheets that they are of that batch, all or none -> the batch as it is then.

    controller: whose sheets, where several have such numbers. Raises NotebookError for a sheet or a batch
    that the notebook has not.
    """
    with notebook(book, writing=True, making=False) as connection:
        batch = papers.find(connection, name)
        sheet_ids = [by_number.find(connection, number, controller)["id"] for number in numbers]
        with acts.act(connection, f"sheets {format_spans(numbers)}: paper {name}", now_s) as act_id:
            papers.put(connection, act_id, sheet_ids, batch)
        return papers.find(connection, name)
