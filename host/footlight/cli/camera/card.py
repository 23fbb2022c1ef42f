"""`footlight camera card`"""

from pathlib import Path

import click

from footlight import quantities as q
from footlight import whole_file
from footlight.camera.lens import USUAL_STOPS, Lens, card
from footlight.camera.page import page
from footlight.cli.camera import options
from footlight.cli.options import json_option, print_json, replace_option
from footlight.errors import InputError
from footlight.views.lenses import card_lines
from footlight.written.camera import camera_file as read_camera_file


@click.command
@click.argument("lens", required=False)
@click.option("--name", help="What to call it on the card.")
@click.option("--stop", "stops", multiple=True, metavar="STOP", help="A mark; give as many as it has.")
@click.option(
    "--draw", "draws", multiple=True, metavar="LENGTH", help="Lens board to film; as many as wanted."
)
@click.option("--pupils", metavar="RATIO", default="1", show_default=True, help="Pupil ratio.")
@options.file
@click.option("--html", type=click.Path(path_type=Path), metavar="FILE", help="Write a page to print.")
@replace_option
@json_option
def command(
    lens: str | None,
    name: str | None,
    stops: tuple[str, ...],
    draws: tuple[str, ...],
    pupils: str,
    path: Path | None,
    html: Path | None,
    replace: bool,
    as_json: bool,
) -> None:
    """A table for the camera case: openings, and the stop that really counts at each draw.

    LENS is a focal length, or the name of a lens in --file; with --file alone, all of its lenses.

    \b
        footlight camera card "150 mm"
        footlight camera card "150 mm" --stop f/5.6 --stop f/8 --draw "150 mm" --draw "225 mm"
        footlight camera card --file camera.toml --html cards.html
    """
    if path:
        settings = read_camera_file(path)
        lenses = [settings.lens(lens)] if lens else list(settings.lenses.values())
    else:
        lenses = [_lens(lens, name, stops, draws, pupils)]
    if not lenses:
        raise InputError(f'{path}: no lens in it; write one under [lens."its name"]')
    cards = [card(one) for one in lenses]
    if html:
        whole_file.write(html, page(cards), whole_file.OR_REPLACE, replacing=replace)
    if as_json:
        print_json({"lenses": [one.as_dict() for one in cards]})
    elif html:
        click.echo(f"{html}: {len(cards)} card(s); print it and cut along the dashes")
    else:
        click.echo("\n\n".join("\n".join(card_lines(one)) for one in cards))


def _lens(
    lens: str | None, name: str | None, stops: tuple[str, ...], draws: tuple[str, ...], pupils: str
) -> Lens:
    if lens is None:
        raise InputError("LENS is missing: give a focal length, '150 mm', or your camera file with --file")
    return Lens(
        name=name or lens,
        focal_mm=q.parse_length_mm(lens, "LENS"),
        stops=tuple(q.parse_stop(stop, "--stop") for stop in stops or USUAL_STOPS),
        draws_mm=tuple(q.parse_length_mm(draw, "--draw") for draw in draws),
        pupil_ratio=q.parse_number(pupils, "--pupils", least=0.2, most=5),
    )
