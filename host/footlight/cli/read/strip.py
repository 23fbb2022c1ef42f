"""`footlight read strip`"""

from pathlib import Path

import click

from footlight import quantities as q
from footlight.cli.options import json_option, say
from footlight.cli.read import doses, keeping, reports, scanned
from footlight.errors import InputError
from footlight.notebook.sheets import readings
from footlight.views.table import columns


@click.command
@click.argument("scan", type=click.Path(path_type=Path))
@doses.options
@scanned.options
@click.option(
    "--bands",
    default="black, grey, white, white2",
    show_default=True,
    help="Bands in order; 'black' alone for a plain strip.",
)
@click.option("--edges", metavar="LIST", help="Inner edges of the steps by hand, mm from the zero end.")
@click.option("--short", is_flag=True, help="The steps run along the short side.")
@scanned.PAPER
@click.option(
    "--mottle",
    metavar="DENSITY",
    default="0.010",
    show_default=True,
    help="The mottle that you no longer accept.",
)
@click.option("--repeat", metavar="STOPS", help="How far your strips differ from each other, if measured.")
@click.option(
    "--earlier", type=click.Path(path_type=Path), help="The --json of the coarser strip before this one."
)
@reports.option("Write the page: .html or .png.")
@json_option
def command(scan: Path, **given) -> None:
    """Read the SCAN of a dry strip: where black is full, where white is spoilt, what to give next.

    Lay the strip and a grey tablet on the scanner, 5 mm apart, white paper about them; 600 ppi, 16 bits, no
    automatic corrections, TIFF. The steps lie along the long side unless you say otherwise. Look at the
    report: it shows what was taken for what.

    With --sheet the light of every step is taken from the notebook as it was really given, the present dose
    from the light setups as they were sent, and the reading is kept with its picture.

    \b
        footlight read strip strip.tif --sheet 41 --tablet "0.06, 0.2, 0.35, 0.5, 0.7, 0.9, 1.1, 1.3"
        footlight read sample strip.tif
        footlight read strip strip.tif --present "8 s" --centre "8 s" --step "1 stop" --steps 7 \\
            --tablet "0.06, 0.2, 0.35, 0.5, 0.7, 0.9, 1.1, 1.3, 1.5, 1.7, 1.9, 2.1" --report strip.html
    """
    from footlight.strips import need

    need.scans()
    reports.check(given["report"], given["replace"], reports.HTML, reports.PNG)
    dosed = doses.of_strip(given)
    read = _read(scan, dosed, **given)
    reports.write(given["report"], given["replace"], lambda path: _page(read, path))
    kept = _keep(scan, read, dosed, given) if keeping.wanted(given) else None
    if given["as_json"]:
        from footlight.strips.result import to_json

        click.echo(to_json(read.reading))
        return
    say([*_lines(read.reading), *keeping.taken_lines(dosed)], read.reading.notes)
    if kept is not None:
        click.echo(keeping.said(kept, given["sheet"]))


def _read(scan: Path, dosed: doses.Dosed, **given):
    from dataclasses import replace

    from msgspec import structs

    from footlight.strips import reading
    from footlight.strips.find.grid import Guide
    from footlight.strips.scan.scan import load

    bands = tuple(name.strip() for name in given["bands"].split(","))
    _check_bands(bands)
    edges = doses.numbers(given["edges"], "--edges", 0, 2000)
    guide = Guide(len(dosed.totals_s), bands, edges, given["short"])
    lit = reading.Doses(dosed.present_s, dosed.totals_s, *dosed.hidden)
    read = reading.read(load(scan, given["ppi"]), lit, guide, _options(given))
    taken = dosed.given.taken if dosed.given else None
    return replace(read, reading=structs.replace(read.reading, taken=taken))


def _keep(scan: Path, read, dosed: doses.Dosed, given: dict) -> int:
    from footlight.strips.result import to_json
    from footlight.strips.show import report

    result = read.reading
    entry = keeping.entry("strip", to_json(result), dosed, result.advice.seconds, scan)
    sheet = f", sheet {given['sheet']}" if given["sheet"] else ""
    what = f"strip {scan.name} read{sheet}: {report.headline(result)}"
    return keeping.keep(given["book"], entry, what, report.small_png(read, readings.MOST_PICTURE_BYTES))


def _check_bands(bands: tuple[str, ...]) -> None:
    known = ("black", "grey", "white", "white2")
    for name in bands:
        if name not in known:
            raise InputError(f"--bands: '{name}' is no band; allowed are {', '.join(known)}, in their order")
    if "black" not in (bands[0], bands[-1]) or len(set(bands)) < len(bands):
        raise InputError(
            "--bands: 'black' must lie at one side, and each band only once; for example 'black, white'"
        )


def _options(given: dict):
    from footlight.strips.judge.windows import Rules
    from footlight.strips.reading import Options

    repeat = given["repeat"]
    paper_d, paper_blue_d = scanned.paper(given["paper"])
    return Options(
        **scanned.calibration(given),
        paper_d=paper_d,
        paper_blue_d=paper_blue_d,
        rules=Rules(mottle_limit_d=q.parse_number(given["mottle"], "--mottle", least=0.002, most=0.2)),
        repeatability_stops=None if repeat is None else q.parse_stops(repeat, "--repeat", least=0, most=3),
        earlier_drop_d=_earlier(given["earlier"]),
    )


def _earlier(path: Path | None) -> float:
    from footlight.strips.result import from_json

    if path is None:
        return 0.0
    if not path.is_file():
        raise InputError(f"--earlier: {path}: no such file; it is what 'read strip --json' printed")
    return from_json(path.read_text("utf-8", errors="replace"), str(path)).drop_d


def _page(read, path: Path) -> None:
    from footlight.strips.show import report

    (report.html_page if path.suffix.lower() == reports.HTML else report.png)(read, path)


def _lines(reading) -> list[str]:
    lines = [*reading.advice.words, *(f"Cause: {text}." for text in reading.advice.causes), ""]
    head = ("step", "dose", *(f"{name} D" for name in reading.bands))
    rows = []
    for cell in reading.band(reading.bands[0]):
        row = [step for step in reading.steps if step.step == cell.step]
        dose = "zero" if not cell.dose_s else q.format_seconds(cell.dose_s)
        rows.append((f"{cell.step}", dose, *(f"{step.density_d:.3f}" for step in row)))
    return lines + columns(head, rows)
