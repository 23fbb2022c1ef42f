"""What a printer says of a sheet in one go: verdict, defects, note, paper, pictures. One act."""

import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass

from footlight.notebook.acts import act
from footlight.notebook.sheets import pictures, remarks
from footlight.notebook.sheets.pictures import Made
from footlight.notebook.stock import papers
from footlight.notebook.stock.papers import Batch


@dataclass(frozen=True)
class SheetEntry:
    """What is to be written; whatever is empty stays as it is."""

    verdict: str = ""
    defects: tuple[str, ...] = ()
    note: str = ""
    batch: Batch | None = None
    pictures: tuple[Made, ...] = ()

    @property
    def is_empty(self) -> bool:
        """Nothing is to be written."""
        return self == SheetEntry()

    def remarks(self) -> list[tuple[str, str]]:
        """(kind, text) as the remarks keep them."""
        verdict = [("verdict", self.verdict)] if self.verdict else []
        note = [("note", self.note)] if self.note else []
        return [*verdict, *(("defect", defect) for defect in self.defects), *note]

    def lines(self) -> Iterator[str]:
        """What it says, in words."""
        yield from (f"{kind}: {text}" for kind, text in self.remarks())
        if self.batch:
            yield f"paper: {self.batch.name}, {self.batch.paper}"
        yield from (f"picture: {made.name}, {len(made.data) / 1024:.0f} KiB" for made in self.pictures)


def write(connection: sqlite3.Connection, sheet: sqlite3.Row, entry: SheetEntry, now_s: int) -> None:
    """Write it about a sheet, as `sheets.find` gave it: all or nothing."""
    said = [f"{kind} {text}" for kind, text in entry.remarks()]
    said += [f"paper {entry.batch.name}"] if entry.batch else []
    said += [f"picture {made.name}" for made in entry.pictures]
    with act(connection, f"sheet {sheet['number']}: {'; '.join(said)}", now_s) as act_id:
        remarks.put(connection, act_id, sheet["id"], entry.remarks())
        if entry.batch:
            papers.put(connection, act_id, [sheet["id"]], entry.batch)
        for made in entry.pictures:
            pictures.put(connection, act_id, sheet["id"], made)
