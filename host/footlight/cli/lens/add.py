"""`footlight lens add`"""

import time
from dataclasses import asdict
from pathlib import Path

import click

from footlight import quantities as q
from footlight.cli.options import json_option, notebook_option, print_json
from footlight.errors import InputError
from footlight.notebook.stock.lenses import Lens


@click.command("add")
@click.argument("name")
@click.option("--focal", metavar="LENGTH", help="Focal length: '210 mm'.")
@click.option("--widest", default="", metavar="STOP", help="Its widest stop: 'f/4.5'.")
@click.option(
    "--true", "true", multiple=True, metavar="'MARK = NUMBER'", help="A stop as measured: 'f/32 = 29.4'."
)
@click.option(
    "--opening", "openings", multiple=True, metavar="'MARK = LENGTH'", help="The same by its diameter."
)
@click.option("--note", default="", help="In your words.")
@click.option(
    "--file",
    "camera_file",
    type=click.Path(path_type=Path),
    help="Take it from your camera file, where it stands under this name.",
)
@notebook_option
@json_option
def command(
    name: str,
    focal: str | None,
    widest: str,
    true: tuple[str, ...],
    openings: tuple[str, ...],
    note: str,
    camera_file: Path | None,
    book: Path,
    as_json: bool,
) -> None:
    """Write down lens NAME. Written again, the new entry holds; what was reckoned before stays as it was.

    A true stop is focal length over the diameter of the opening, seen through the front of the lens:
    'footlight camera opening' shows how.

    \b
    Example:
      footlight lens add "portrait lens" --focal "210 mm" --widest f/4.5
      footlight lens add "portrait lens" --focal "210 mm" --true "f/32 = 29.4" --opening "f/8 = 25.9 mm"
      footlight lens add "old portrait lens" --file camera.toml
    """
    from footlight.notebook.book import notebook
    from footlight.notebook.stock import lenses

    lens = (
        _from_file(name, camera_file, widest, note)
        if camera_file
        else _written(name, focal, widest, [*true], [*openings], note)
    )
    with notebook(book, writing=True) as connection:
        lenses.add(connection, lens, int(time.time()))
    if as_json:
        print_json(asdict(lens))
        return
    stops = f"; measured: {lens.true_stops}" if lens.true_stops else ""
    click.echo(f"lens {lens.name}: {lens.focal_mm:g} mm {lens.widest}".rstrip() + stops)


def _written(
    name: str, focal: str | None, widest: str, true: list[str], openings: list[str], note: str
) -> Lens:
    if focal is None:
        raise InputError(f"lens '{name}': --focal is missing, for example --focal '210 mm'")
    focal_mm = q.parse_length_mm(focal, "--focal")
    for opening in openings:
        mark, _, diameter = opening.partition("=")
        true.append(f"{mark.strip()} = {_true(focal_mm, q.parse_length_mm(diameter.strip(), '--opening'))}")
    return Lens(
        name, focal_mm, str(q.parse_stop(widest, "--widest")) if widest else "", ", ".join(true), note
    )


def _from_file(name: str, path: Path, widest: str, note: str) -> Lens:
    from footlight.cli.camera.written import settings

    lens = settings(path).lens(name)
    true = ", ".join(f"{mark} = {_true(lens.focal_mm, diameter)}" for mark, diameter in lens.measured_mm)
    return Lens(name, lens.focal_mm, widest or str(lens.stops[0]), true, note)


def _true(focal_mm: float, diameter_mm: float) -> str:
    return f"{focal_mm / diameter_mm:.4g}"
