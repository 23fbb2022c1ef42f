"""Keep what was read in the notebook: result and picture, in one act."""

import hashlib
import time
from pathlib import Path

from footlight.cli.read.doses import Dosed
from footlight.notebook.book import notebook
from footlight.notebook.sheets import readings

_AT_ONCE = 1 << 20


def wanted(given: dict) -> bool:
    """Is the reading to be kept?"""
    return given["sheet"] is not None or given["keep"]


def keep(book: Path, entry: readings.Entry, what: str, picture: bytes = b"") -> int:
    """Keep a reading -> its number."""
    with notebook(book, writing=True) as connection:
        return readings.keep(connection, entry, what, picture, int(time.time()))


def entry(kind: str, result: str, dosed: Dosed, dose_s: float | None, scan: Path | None = None):
    """A strip's reading as the notebook keeps it."""
    taken = dosed.given.taken if dosed.given else None
    return readings.Entry(
        kind=kind,
        result=result,
        sheet_id=dosed.sheet_id,
        run=taken.run if taken else None,
        step=taken.first_step if taken else None,
        setup=taken.setup if taken else "",
        scan=scan.name if scan else "",
        scan_sha256=sha256_of(scan) if scan else "",
        dose_s=dose_s,
    )


def sha256_of(path: Path) -> str:
    """Of a file, a part at a time: a scan may be large."""
    digest = hashlib.sha256()
    with path.open("rb") as file:
        while part := file.read(_AT_ONCE):
            digest.update(part)
    return digest.hexdigest()


def said(number: int, sheet: int | None) -> str:
    """That it was kept, in words."""
    of = f" of sheet {sheet}" if sheet is not None else ""
    return f"Kept as reading {number}{of}; 'footlight undo' takes it back."


def taken_lines(dosed: Dosed) -> list[str]:
    """What came from the notebook, and how the sheet went."""
    if dosed.given is None:
        return []
    taken = dosed.given.taken
    return ["", "Taken:", *(f"  {text}" for text in (*taken.said, *taken.run_words))]
