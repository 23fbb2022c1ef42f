"""Find the readings that were kept, and write the picture of one."""

from pathlib import Path

from footlight.actions import write_report
from footlight.actions.write_report import PNG, Report
from footlight.errors import InputError, field
from footlight.notebook.book import notebook
from footlight.notebook.sheets import readings
from footlight.notebook.sheets.readings import Kept

MOST = 20


def find_readings(book: Path, number: int | None = None, picture: Report | None = None) -> list[Kept]:
    """The reading of that number, or those of late, the newest first. Raises NotebookError, InputError."""
    if picture is not None and number is None:
        raise InputError(f"{field(picture.name)}: name the reading whose picture it is")
    write_report.check(picture, PNG)
    with notebook(book, writing=False) as connection:
        if number is None:
            return readings.newest(connection, MOST)
        kept = readings.find(connection, number)
        if picture is not None:
            data = readings.picture_of(connection, number)
            write_report.write(picture, lambda path: path.write_bytes(data))
    return [kept]
