"""Write the page of a reading: looked at before the reading, and over another file only if asked."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from footlight import whole_file
from footlight.errors import InputError, field

HTML, PNG = ".html", ".png"


@dataclass(frozen=True)
class Report:
    """Where a page goes. replacing: over a file that is there. name: of the value that said so."""

    path: Path
    replacing: bool = False
    name: str = "report"


def check(report: Report | None, *endings: str) -> None:
    """Raise InputError where no page of that name can be written, or one is there already."""
    if report is None:
        return
    if report.path.suffix.lower() not in endings:
        raise InputError(f"{field(report.name)}: '{report.path.name}' must end in {' or '.join(endings)}")
    if not report.replacing:
        whole_file.refuse_existing(report.path, whole_file.OR_REPLACE)


def write(report: Report | None, make: Callable[[Path], object]) -> None:
    """Let `make` write the page, if one was asked for. Raises InputError."""
    if report is not None:
        with whole_file.whole(report.path, whole_file.OR_REPLACE, replacing=report.replacing) as part:
            make(part)
