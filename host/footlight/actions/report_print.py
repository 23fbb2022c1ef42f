"""The facts of one print, gathered for its report."""

import sqlite3
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from footlight.actions.draw_run import draw_last_run
from footlight.actions.recall_print import Print, recall_print
from footlight.errors import FootlightError
from footlight.notebook.book import notebook
from footlight.notebook.sheets import by_number, pictures, readings
from footlight.notebook.sheets.by_number import Story
from footlight.notebook.sheets.readings import Kept
from footlight.notebook.stock import light_setups
from footlight.report.pages.print_sheet import Picture


@dataclass(frozen=True)
class PrintFacts:
    """A print. shown: its picture, None where none is attached. time_line: of its last run, or why it cannot
    be drawn. strips: readings of the sheet itself, and of the strips behind its light setups' references."""

    print: Print
    shown: Picture | None
    time_line: Picture | str
    strips: Sequence[Kept]


def report_print(
    book: Path, number: int, controller: str | None = None, which: int | None = None
) -> PrintFacts:
    """Everything that a report tells. which: of the pictures that were attached, None for the last. Raises
    NotebookError for a sheet or a picture that the notebook has not."""
    with notebook(book, writing=False) as connection:
        recalled = recall_print(connection, number, controller)
        return PrintFacts(
            recalled,
            _picture(connection, recalled.story, which),
            _time_line(connection, recalled.story),
            _strips(connection, recalled),
        )


def _picture(connection: sqlite3.Connection, story: Story, which: int | None) -> Picture | None:
    kept = pictures.of_sheet(connection, story.sheet_id)
    if not kept and which is None:
        return None
    sheet = by_number.find(connection, story.number, story.controller)
    return Picture(pictures.data_of(connection, sheet, which), kept[which - 1 if which else -1].media)


def _time_line(connection: sqlite3.Connection, story: Story) -> Picture | str:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "time-line.svg"
        try:
            draw_last_run(connection, story, path)
        except FootlightError as error:
            # A report without its drawing is still a report: it says what is missing and why.
            return f"{error}"
        return Picture(path.read_bytes(), "image/svg+xml")


def _strips(connection: sqlite3.Connection, recalled: Print) -> list[Kept]:
    story = recalled.story
    own = readings.of_sheet(connection, story.sheet_id)
    at_s = max((part.when.to_unix_s or 0 for part in story.runs), default=0)
    known = {kept.id for kept in own}
    behind = light_setups.readings_behind(connection, recalled.setups, at_s)
    return own + [readings.find(connection, number) for number in behind if number not in known]
