"""`footlight lens add`"""

import time
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from footlight.cli.options import json_option, notebook_option, print_json
from footlight.cli.types import Quantity
from footlight.errors import InputError

if TYPE_CHECKING:
    from footlight.actions.add_lens import Opening
    from footlight.quantities import FStop


class _Opening(click.ParamType):
    """`f/8 = 25.9 mm` -> the mark as written, and the diameter [mm]."""

    name = "opening"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> "Opening":
        if not isinstance(value, str):
            return value
        mark, _, diameter = value.partition("=")
        return mark.strip(), Quantity("parse_length_mm").convert(diameter.strip(), param, ctx)


@click.command("add")
@click.argument("name")
@click.option(
    "--focal",
    "focal_mm",
    metavar="LENGTH",
    type=Quantity("parse_length_mm"),
    help="Focal length: '210 mm'.",
)
@click.option("--widest", metavar="STOP", type=Quantity("parse_stop"), help="Its widest stop: 'f/4.5'.")
@click.option(
    "--true", "true", multiple=True, metavar="'MARK = NUMBER'", help="A stop as measured: 'f/32 = 29.4'."
)
@click.option(
    "--opening",
    "openings",
    multiple=True,
    metavar="'MARK = LENGTH'",
    type=_Opening(),
    help="The same by its diameter.",
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
    focal_mm: float | None,
    widest: "FStop | None",
    true: tuple[str, ...],
    openings: "tuple[Opening, ...]",
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
    from footlight.actions.add_lens import add_lens, from_file, measured

    if camera_file:
        from footlight.written.camera import camera_file as read_camera_file

        lens = from_file(read_camera_file(camera_file), name, widest, note)
    elif focal_mm is None:
        raise InputError(f"lens '{name}': --focal is missing, for example --focal '210 mm'")
    else:
        lens = measured(name, focal_mm, widest, true, openings, note)
    add_lens(book, lens, int(time.time()))
    if as_json:
        print_json(asdict(lens))
        return
    stops = f"; measured: {lens.true_stops}" if lens.true_stops else ""
    click.echo(f"lens {lens.name}: {lens.focal_mm:g} mm {lens.widest}".rstrip() + stops)
