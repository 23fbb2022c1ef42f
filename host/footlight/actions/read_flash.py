"""Read the two pre-flash strips: where paper begins to see, and the largest flash that keeps the black."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import msgspec
from msgspec import structs

from footlight.actions import keep_reading, open_scan, write_report
from footlight.actions.keep_reading import Keeping
from footlight.actions.open_scan import ScanFile
from footlight.actions.take_strip_doses import StripDoses
from footlight.actions.write_report import PNG, Report
from footlight.strips import need

if TYPE_CHECKING:
    from footlight.strips.preflash import FlashRead, FlashReading


@dataclass(frozen=True)
class FlashStripRead:
    """A pre-flash strip, read. kept: the number it was kept under, None where it was not."""

    reading: "FlashReading"
    doses: StripDoses
    kept: int | None = None


@dataclass(frozen=True)
class FlashStrip:
    """A scan with its flashes, the inner edges of its steps by hand [mm], its page, and where it is kept."""

    scan: ScanFile
    doses: StripDoses
    edges_mm: tuple[float, ...] = ()
    report: Report | None = None
    keeping: Keeping | None = None


def read_threshold(strip: FlashStrip, above_d: float) -> FlashStripRead:
    """The quick strip. above_d: what counts as seen [D]. Raises ScanError, InputError."""

    def read() -> "FlashRead":
        from footlight.strips import preflash

        scan, options = open_scan.opened(strip.scan), open_scan.calibrated(strip.scan)
        return preflash.threshold(scan, strip.doses.totals_s, options, strip.edges_mm, above_d)

    return _done(strip, read)


def read_flash_bands(strip: FlashStrip, bands: tuple[str, ...], loss_d: float) -> FlashStripRead:
    """The deciding strip. bands: tones, darkest first. loss_d: black that may be lost [D].

    Raises ScanError, InputError.
    """

    def read() -> "FlashRead":
        from footlight.strips import preflash

        scan, options = open_scan.opened(strip.scan), open_scan.calibrated(strip.scan)
        return preflash.bands(scan, strip.doses.totals_s, bands, options, strip.edges_mm, loss_d)

    return _done(strip, read)


def _done(strip: FlashStrip, read: Callable[[], "FlashRead"]) -> FlashStripRead:
    need.scans()
    write_report.check(strip.report, PNG)
    from footlight.strips.show import flash_picture

    flash = read()
    flash = replace(flash, reading=structs.replace(flash.reading, taken=strip.doses.taken))
    write_report.write(strip.report, lambda path: path.write_bytes(flash_picture.png(flash, 150)))
    return FlashStripRead(
        flash.reading, strip.doses, _keep(strip, flash, strip.keeping) if strip.keeping else None
    )


def _keep(strip: FlashStrip, flash: "FlashRead", keeping: Keeping) -> int:
    from footlight.notebook.sheets import readings
    from footlight.strips.show import flash_picture, report

    path, reading = strip.scan.path, flash.reading
    result = msgspec.json.encode(reading).decode()
    entry = keep_reading.strip_entry("pre-flash", result, strip.doses, reading.seconds, path)
    what = f"pre-flash strip {path.name} read{keeping.of_sheet}: {flash_picture.headline(reading)}"
    picture = report.small(lambda dpi: flash_picture.png(flash, dpi), readings.MOST_PICTURE_BYTES)
    return keep_reading.keep(keeping, entry, what, picture)
