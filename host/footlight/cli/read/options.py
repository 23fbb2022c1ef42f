"""Options that several commands of `footlight read` have, and what they make of them."""

from collections.abc import Callable
from functools import reduce
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from footlight import quantities as q
from footlight.cli.options import Decorator, from_settings, notebook_option, replace_option
from footlight.errors import field

if TYPE_CHECKING:
    from footlight.actions.keep_reading import Keeping
    from footlight.actions.open_scan import ScanFile
    from footlight.actions.take_strip_doses import StripDoses, StripOfSheet
    from footlight.actions.write_report import Report

PATH = click.Path(path_type=Path)

_FROM = (
    click.option(
        "--sheet",
        type=click.IntRange(1),
        metavar="N",
        help="The strip's sheet: take its doses as they were given from the notebook, and keep the reading.",
    ),
    click.option("--controller", help="Which controller's, if several have a sheet of that number."),
    click.option("--run", type=click.IntRange(1), help="Which run of the sheet; without it, its last strip."),
    click.option(
        "--manner",
        type=click.Choice(["covered", "uncovered", "separate", "cut"]),
        default="covered",
        show_default=True,
        help="How the bands got their light, where the sequence's notes do not say.",
    ),
    click.option(
        "--setups",
        type=PATH,
        default=from_settings("setups", "light-setups.toml"),
        show_default="light-setups.toml",
        metavar="FILE",
        help="For the present dose, where the setups were not kept as they were sent.",
    ),
    click.option("--keep", is_flag=True, help="Keep the reading without a sheet."),
)
_PRESENT = click.option("--present", metavar="TIME", help="The dose that is given now, such as '8 s'.")
_PATCH = click.option(
    "--patch",
    "patches",
    multiple=True,
    metavar="PATCH",
    help="'0.06 at 12, 80 mm': a known density; twice or more.",
)
_LINEAR = click.option("--linear", is_flag=True, help="The scan is proportional to light, not sRGB.")
_PPI = click.option("--ppi", type=float, help="Resolution, where the file has none or a wrong one.")
_TABLET = click.option(
    "--tablet", metavar="LIST", help="Densities of a grey tablet beside the strip: '0.06, 0.2, 0.35, …'."
)
paper: Decorator = click.option(
    "--paper",
    metavar="DENSITY",
    help="Density of the bare base, to tell veil from base; or 'red, green, blue', to tell a warm base from"
    " stain.",
)
repeat: Decorator = click.option(
    "--repeat", metavar="STOPS", help="How far your strips differ from each other, if measured."
)


def _decorator(*options: Decorator) -> Decorator:
    return lambda command: reduce(lambda made, option: option(made), reversed(options), command)


def _typed(step: str, count: int, ends: str) -> tuple[Decorator, ...]:
    return (
        click.option("--doses", metavar="LIST", help=f"As given: '0, 1 s, 2 s, 4 s, 8 s'; {ends}."),
        click.option("--centre", metavar="TIME", help="As planned: the middle step, such as '8 s' …"),
        click.option("--step", metavar="STOPS", default=step, show_default=True, help="… how far apart …"),
        click.option(
            "--steps", "count", type=int, default=count, show_default=True,
            help="… and how many, without those at the ends.",
        ),
    )  # fmt: skip


# Where the doses come from: a sheet of the notebook, or what is typed.
doses = _decorator(*_FROM, _PRESENT, *_typed("1 stop", 7, "zero and anchor too"), notebook_option)
# How a strip's scan is to be read, and that of a print, which has no tablet.
scan = _decorator(_PPI, _TABLET, _PATCH, _LINEAR)
print_scan = _decorator(_PATCH, _LINEAR, _PPI)


def flash(count: int) -> Decorator:
    """SCAN, where the flashes come from, and how the scan is to be read."""
    return _decorator(
        click.argument("scan", type=PATH),
        *_FROM,
        *_typed("1/2 stop", count, "the step without flash too"),
        notebook_option,
        scan,
        click.option("--edges", metavar="LIST", help="Inner edges of the steps by hand, mm."),
        report("Write the page: .png."),
    )


def report(text: str) -> Decorator:
    """`--report` with its help, and `--replace`."""
    return _decorator(click.option("--report", type=PATH, help=text), replace_option)


def report_of(given: dict[str, Any], name: str = "report") -> "Report | None":
    """Where the page goes, if one is wanted."""
    from footlight.actions.write_report import Report

    return Report(given[name], given["replace"], name) if given[name] else None


def keeping_of(given: dict[str, Any]) -> "Keeping | None":
    """Where the reading is kept: with its sheet, or without one where that is asked for."""
    from footlight.actions.keep_reading import Keeping

    wanted = given["sheet"] is not None or given.get("keep")
    return Keeping(given["book"], given["sheet"]) if wanted else None


def doses_of(given: dict[str, Any]) -> "StripDoses":
    """The doses by the options of `doses`; those that were typed go before those of the notebook."""
    from footlight.actions.take_strip_doses import TypedDoses, take
    from footlight.written.strip_doses import strip_totals_s

    present = given["present"]
    present_s = q.parse_seconds(present, field("present"), least_s=0.01) if present is not None else None
    totals_s = _totals(given, strip_totals_s)
    typed = TypedDoses(totals_s, present_s) if totals_s else None
    return take(given["book"], _sheet(given, present_s), typed)


def flashes_of(given: dict[str, Any]) -> "StripDoses":
    """The flashes by the options of `flash`; stops are counted from the middle one."""
    from footlight.actions.take_strip_doses import TypedDoses, take
    from footlight.written.strip_doses import flash_totals_s

    totals_s = _totals(given, flash_totals_s)
    typed = TypedDoses(totals_s, totals_s[len(totals_s) // 2]) if totals_s else None
    return take(given["book"], _sheet(given, None), typed)


def _totals(given: dict[str, Any], read: Callable[..., tuple[float, ...]]) -> tuple[float, ...] | None:
    if given["sheet"] is not None and given["doses"] is None and given["centre"] is None:
        return None
    return read(given["doses"], given["centre"], given["step"], given["count"])


def _sheet(given: dict[str, Any], present_s: float | None) -> "StripOfSheet | None":
    from footlight.actions.take_strip_doses import StripOfSheet

    if given["sheet"] is None:
        return None
    return StripOfSheet(
        given["sheet"], given["controller"], given["run"], given["manner"], present_s, given["setups"]
    )


def scan_of(path: Path, given: dict[str, Any]) -> "ScanFile":
    """The scan by the options of `scan`, or of `print_scan`."""
    from footlight.actions.open_scan import ScanFile
    from footlight.written import scans
    from footlight.written.strip_doses import numbers

    tablet_d = numbers(given.get("tablet"), field("tablet"), 0, 4)
    patches = tuple(scans.patch(text, field("patches")) for text in given["patches"])
    return ScanFile(path, given["ppi"], tablet_d, patches, given["linear"])


def repeat_of(text: str | None) -> float | None:
    """How far strips differ from each other [stops]."""
    return None if text is None else q.parse_stops(text, field("repeat"), least=0, most=3)
