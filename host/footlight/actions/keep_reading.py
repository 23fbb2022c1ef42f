"""Keep what was read in the notebook: result and picture, in one act."""

import hashlib
import time
from dataclasses import dataclass
from pathlib import Path

from footlight.actions.take_strip_doses import StripDoses
from footlight.kinds import ReadingKind
from footlight.notebook.book import notebook
from footlight.notebook.sheets import readings

_AT_ONCE = 1 << 20


@dataclass(frozen=True)
class Keeping:
    """Where a reading is kept. sheet: the number of the sheet that it is of, None for none."""

    book: Path
    sheet: int | None = None

    @property
    def of_sheet(self) -> str:
        """For what is written about the act: `, sheet 41`."""
        return "" if self.sheet is None else f", sheet {self.sheet}"


def keep(keeping: Keeping, entry: readings.Entry, what: str, picture: bytes = b"") -> int:
    """Keep a reading -> its number."""
    with notebook(keeping.book, writing=True) as connection:
        return readings.keep(connection, entry, what, picture, int(time.time()))


def strip_entry(
    kind: ReadingKind, result: str, doses: StripDoses, dose_s: float | None, scan: Path | None = None
) -> readings.Entry:
    """A strip's reading as the notebook keeps it. dose_s: advised [s]."""
    taken = doses.taken
    return readings.Entry(
        kind=kind,
        result=result,
        sheet_id=doses.sheet_id,
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
