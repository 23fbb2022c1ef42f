"""`footlight expose`: a sheet in the camera."""

import time
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.cli.types import FROM_1, Moment, Quantity

if TYPE_CHECKING:
    from footlight.actions.expose_sheet import Exposed


@click.command("expose")
@click.argument("number", type=FROM_1)
@click.option(
    "--meter",
    "reading",
    metavar="READING",
    type=Quantity("reading", "footlight.written.camera"),
    help="Meter reading: 'EV 12', '1/2 s, f/22, EI 8', '20000 lx'.",
)
@click.option(
    "--planned",
    "planned_s",
    metavar="TIME",
    type=Quantity("parse_seconds"),
    help="The planned time, where it is not reckoned from a reading.",
)
@click.option(
    "--given",
    "given_s",
    metavar="TIME",
    type=Quantity("parse_seconds"),
    help="As really timed: '3.5 s'.",
)
@click.option("--stop", metavar="STOP", type=Quantity("parse_stop"), help="As set: 'f/32'.")
@click.option("--lens", metavar="LENS", help="A lens in the notebook or in --file, or a focal length.")
@click.option(
    "--draw",
    "draw_mm",
    metavar="LENGTH",
    type=Quantity("parse_length_mm"),
    help="Lens board to film: '300 mm'.",
)
@click.option(
    "--image",
    "image_mm",
    metavar="LENGTH",
    type=Quantity("parse_length_mm"),
    help="In place of it: size of something on the ground glass.",
)
@click.option(
    "--object", "object_mm", metavar="LENGTH", type=Quantity("parse_length_mm"), help="Its own size."
)
@click.option(
    "--ei",
    "index",
    metavar="INDEX",
    type=Quantity("index", "footlight.written.camera"),
    help="Exposure index. Without it: what was found for the paper.",
)
@click.option(
    "--p",
    metavar="P",
    type=Quantity("parse_number", least=0.5, most=1.2),
    help="Measured exponent of long exposures.",
)
@click.option("--holder", metavar="SIDE", help="Number and side of the holder: '3a'.")
@click.option("--subject", metavar="WORDS", help="What is on it.")
@click.option("--light", metavar="WORDS", help="On the subject: 'open shade', 'open shade, -1/3 stop'.")
@click.option("--filter", "filter", metavar="WORDS", help="'yellow, 1 1/3 stop'.")
@click.option("--paper", metavar="NAME", help="Its batch. Without it: the one in use.")
@click.option(
    "--at",
    "at_unix_s",
    metavar="WHEN",
    type=Moment(),
    help="When: '2026-03-01 15:20', '15:20', 'yesterday 15:20', 'now'.",
)
@click.option("--again", is_flag=True, help="The rest as for the sheet that was written down last.")
@click.option("--as", "as_sheet", type=FROM_1, metavar="NUMBER", help="The rest as for that sheet.")
@click.option(
    "--new", is_flag=True, help="Another sheet than the one of that number that was printed before."
)
@click.option("--correct", is_flag=True, help="Write over what was written of this sheet before.")
@click.option(
    "--file",
    "camera_file",
    type=click.Path(path_type=Path),
    help="Your camera file, with lenses, lights, filters.",
)
@click.option("--controller", help="Which controller's, if several have a sheet of that number.")
@notebook_option
@json_option
def command(number: int, book: Path, as_json: bool, camera_file: Path | None, **said) -> None:
    """Write down what sheet NUMBER got in the camera: planned, with its arithmetic, and given.

    The number is the one pencilled at the pre-flash; the controller's journal need not be home yet. What is
    left out stays as it was written before; lights and filters with stops behind a comma, or in --file, are
    reckoned with.

    \b
    Example:
      footlight expose 41 --meter "EV 12" --stop f/22 --lens "portrait lens" --holder 3a
      footlight expose 41 --given "3.5 s"
      footlight expose 42 --again --holder 3b --subject "the same, hands folded"
      footlight expose 43 --planned "4 s" --light "north window" --at "yesterday 15:20"
    """
    from footlight.actions.expose_sheet import InCamera, expose_sheet

    settings = None
    if camera_file:
        from footlight.written.camera import camera_file as read_camera_file

        settings = read_camera_file(camera_file)
    exposed = expose_sheet(book, number, InCamera(**said, settings=settings), int(time.time()))
    if as_json:
        paper = exposed.paper.name if exposed.paper else None
        print_json({"sheet": number, "paper": paper, **asdict(exposed.exposure)})
        return
    _tell(number, exposed)


def _tell(number: int, exposed: "Exposed") -> None:
    from footlight.views.camera import lines

    click.echo(f"sheet {number}, in the camera:")
    for line in lines(exposed.exposure):
        click.echo(f"  {line}")
    if exposed.paper:
        why = ", which is in use" if exposed.paper_filled_in else ""
        click.echo(f"  paper {exposed.paper.name}, {exposed.paper.size}{why}")
    if exposed.waiting:
        click.echo("  Its journal is not home yet: 'footlight collect' joins the two by the number.")
    if exposed.printed:
        hint(f"Sheet {number} was printed before. If another sheet is meant: 'footlight undo', then --new.")
