"""What is written about a sheet: verdict, defects, note, paper, pictures; and what stands about it."""

from dataclasses import dataclass, replace
from pathlib import Path

from footlight.notebook.book import notebook
from footlight.notebook.sheets import by_number, entries, pictures, remarks
from footlight.notebook.sheets.by_number import RunPart
from footlight.notebook.sheets.entries import SheetEntry
from footlight.notebook.stock import papers
from footlight.notebook.stock.papers import Batch


@dataclass(frozen=True)
class Standing:
    """What stands about a sheet: '' and None where nothing does. batches: all the papers there are."""

    number: int
    last_run: RunPart | None
    verdict: str
    defects: tuple[str, ...]
    paper: str
    batches: tuple[Batch, ...]


def standing(book: Path, number: int, controller: str | None) -> Standing:
    """What stands about a sheet. Raises NotebookError where there is none, or several."""
    with notebook(book, writing=False) as connection:
        sheet = by_number.find(connection, number, controller)
        written = remarks.of_sheet(connection, sheet["id"])
        paper = papers.of_sheet(connection, sheet["id"])
        runs = by_number.story(connection, sheet).runs
        return Standing(
            number,
            runs[-1] if runs else None,
            next((remark.text for remark in written if remark.kind == "verdict"), ""),
            tuple(remark.text for remark in written if remark.kind == "defect"),
            paper.name if paper else "",
            tuple(papers.every(connection)),
        )


def small_picture(path: Path) -> pictures.Made:
    """A picture made small enough to be kept. Raises InputError for what is none."""
    return pictures.make(path)


def write_sheet(
    book: Path,
    number: int,
    entry: SheetEntry,
    now_s: int,
    *,
    paper: str | None = None,
    controller: str | None = None,
) -> SheetEntry:
    """Write an entry about a sheet, all or nothing -> what was new of it; a picture may be kept already.

    paper: its batch by name, instead of the entry's. controller: whose sheet, where several have one of the
    number. Raises NotebookError for a sheet or a paper that the notebook has not.
    """
    with notebook(book, writing=True, making=False) as connection:
        sheet = by_number.find(connection, number, controller)
        if paper:
            entry = replace(entry, batch=papers.find(connection, paper))
        new = replace(entry, pictures=pictures.without_kept(connection, sheet["id"], entry.pictures))
        if not new.is_empty:
            entries.write(connection, sheet, new, now_s)
    return new
