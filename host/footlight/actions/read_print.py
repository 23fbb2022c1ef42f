"""Read what any print says of itself: its fullest black, veil and mottle of plain places."""

import json
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from footlight.actions import keep_reading, open_scan, write_report
from footlight.actions.keep_reading import Keeping
from footlight.actions.open_scan import ScanFile
from footlight.actions.take_strip_doses import sheet_id_of
from footlight.actions.write_report import PNG, Report
from footlight.notebook.sheets import readings
from footlight.strips import need

if TYPE_CHECKING:
    from footlight.strips.measure.spot import Spots

Box = tuple[float, float, float, float]  # x, y, width, height [mm]


@dataclass(frozen=True)
class PrintRead:
    """A print, read. kept: the number it was kept under, None where it was not."""

    spots: "Spots"
    kept: int | None = None


def read_print(
    scan: ScanFile,
    places: dict[str, Box],
    base_d: tuple[float, ...] = (),
    *,
    controller: str | None = None,
    report: Report | None = None,
    keeping: Keeping | None = None,
) -> PrintRead:
    """Measure rebate and highlight, write the picture and keep it, where that is wanted.

    places: those that were pointed at, by name; the others are found. base_d: of the bare paper [D].
    controller: whose sheet, if several have one of that number. Raises ScanError, InputError.
    """
    need.scans()
    write_report.check(report, PNG)
    from footlight.strips.measure import spot
    from footlight.strips.show import spot_picture

    paper_d, _ = open_scan.base_d(base_d)
    loaded, patches = open_scan.opened(scan), open_scan.patches(scan)
    spots = spot.measure_spots(loaded, places, patches, scan.linear, paper_d)
    write_report.write(report, lambda path: path.write_bytes(spot_picture.png(spots, loaded.name, 150)))
    return PrintRead(spots, _keep(scan.path, spots, keeping, controller) if keeping else None)


def _keep(scan: Path, spots: "Spots", keeping: Keeping, controller: str | None) -> int:
    from footlight.strips.show import report, spot_picture

    entry = readings.Entry(
        kind="print",
        result=json.dumps(spots.as_dict(), ensure_ascii=False),
        sheet_id=None if keeping.sheet is None else sheet_id_of(keeping.book, keeping.sheet, controller),
        scan=scan.name,
        scan_sha256=keep_reading.sha256_of(scan),
        d_max=spots.d_max,
        veil_d=spots.veil_d,
        mottle_d=spots.mottle_d,
    )
    values = ((spots.d_max, "black"), (spots.veil_d, "veil"), (spots.mottle_d, "mottle"))
    measured = ", ".join(f"{name} {value:.3f} D" for value, name in values if value is not None)
    picture = report.small(lambda dpi: spot_picture.png(spots, scan.name, dpi), readings.MOST_PICTURE_BYTES)
    return keep_reading.keep(keeping, entry, f"print {scan.name} read{keeping.of_sheet}: {measured}", picture)
