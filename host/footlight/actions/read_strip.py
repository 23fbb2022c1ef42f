"""Read the scan of a dry strip: density, mottle, the window of safe doses, the next strip."""

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import structs

from footlight.actions import keep_reading, open_scan, write_report
from footlight.actions.keep_reading import Keeping
from footlight.actions.open_scan import ScanFile
from footlight.actions.take_strip_doses import StripDoses
from footlight.actions.write_report import HTML, PNG, Report
from footlight.errors import InputError, field
from footlight.strips import need
from footlight.strips.result import Reading, from_json, to_json

if TYPE_CHECKING:
    from footlight.strips.reading import Options, Read


@dataclass(frozen=True)
class StripLayout:
    """How a strip lies. bands: in order; `black` alone for a plain one. edges_mm: of the steps, by hand [mm].

    short: the steps run along the short side. corners_mm: of the strip in the scan, by hand, around it [mm].
    """

    bands: tuple[str, ...] = ("black", "grey", "white", "white2")
    edges_mm: tuple[float, ...] = ()
    short: bool = False
    corners_mm: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True)
class StripRules:
    """What counts.

    mottle_d: that is no longer accepted [D]. repeatability_stops: measured from strip to strip. base_d: of
    the bare paper, one density or red, green, blue [D]. earlier: a kept reading of the coarser strip before
    this one, a file.
    """

    mottle_d: float = 0.010
    repeatability_stops: float | None = None
    base_d: tuple[float, ...] = ()
    earlier: Path | None = None


@dataclass(frozen=True)
class StripRead:
    """A strip, read. kept: the number it was kept under, None where it was not."""

    reading: Reading
    doses: StripDoses
    kept: int | None = None


def read_strip(
    scan: ScanFile,
    doses: StripDoses,
    layout: StripLayout,
    rules: StripRules,
    *,
    report: Report | None = None,
    keeping: Keeping | None = None,
) -> StripRead:
    """Read it, write its page and keep it, where that is wanted.

    Raises ScanError for what cannot be read, InputError for a page that cannot be written.
    """
    need.scans()
    write_report.check(report, HTML, PNG)
    read = _read(scan, doses, layout, _options(scan, rules))
    write_report.write(report, lambda path: _page(read, path))
    kept = _keep(scan.path, read, doses, keeping) if keeping else None
    return StripRead(read.reading, doses, kept)


def _read(scan: ScanFile, doses: StripDoses, layout: StripLayout, options: "Options") -> "Read":
    from footlight.strips import reading
    from footlight.strips.find.grid import Guide

    guide = Guide(
        len(doses.totals_s), layout.bands, layout.edges_mm, layout.short, corners_mm=layout.corners_mm
    )
    lit = reading.Doses(doses.present_s, doses.totals_s, *doses.bounds_s)
    read = reading.read(open_scan.opened(scan), lit, guide, options)
    return replace(read, reading=structs.replace(read.reading, taken=doses.taken))


def _options(scan: ScanFile, rules: StripRules) -> "Options":
    from footlight.strips.judge.windows import Rules

    paper_d, paper_blue_d = open_scan.base_d(rules.base_d)
    return replace(
        open_scan.calibrated(scan),
        paper_d=paper_d,
        paper_blue_d=paper_blue_d,
        rules=Rules(mottle_limit_d=rules.mottle_d),
        repeatability_stops=rules.repeatability_stops,
        earlier_drop_d=_earlier_drop_d(rules.earlier),
    )


def _earlier_drop_d(path: Path | None) -> float:
    if path is None:
        return 0.0
    if not path.is_file():
        raise InputError(f"{field('earlier')}: {path}: no such file; it is the JSON of a strip that was read")
    return from_json(path.read_text("utf-8", errors="replace"), str(path)).drop_d


def _page(read: "Read", path: Path) -> None:
    from footlight.strips.show import report

    (report.html_page if path.suffix.lower() == HTML else report.png)(read, path)


def _keep(scan: Path, read: "Read", doses: StripDoses, keeping: Keeping) -> int:
    from footlight.notebook.sheets import readings
    from footlight.strips.show import report

    result = read.reading
    entry = keep_reading.strip_entry("strip", to_json(result), doses, result.advice.seconds, scan)
    what = f"strip {scan.name} read{keeping.of_sheet}: {report.headline(result)}"
    return keep_reading.keep(keeping, entry, what, report.small_png(read, readings.MOST_PICTURE_BYTES))
