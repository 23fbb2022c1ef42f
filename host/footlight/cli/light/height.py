"""`footlight light height`"""

import click

from footlight import quantities as q
from footlight.cli.light import changes, written
from footlight.cli.options import json_option, print_json
from footlight.light.inverse import height_for_time


@click.command
@click.argument("found")
@click.option("--for", "wanted", metavar="TIME", required=True, help="The time wanted.")
@click.option("--new", metavar="PARTS", help="What changes besides the height, as 'f/8'.")
@changes.change_options
@json_option
def command(found: str, wanted: str, new: str | None, as_json: bool, **options) -> None:
    """Which height gives a time. Height is lens pupil to sheet in its tray.

    \b
        footlight light height "6 s, 620 mm, f/11" --for "10 s"
        footlight light height "6 s, 620 mm, f/11" --for "6 s" --new "f/8"
    """
    seconds, at, change = changes.start(found, **options)
    to = written.changed(at, new, "--new") if new else at
    answer = height_for_time(seconds, at, to, q.parse_seconds(wanted, "--for"), change)
    if as_json:
        print_json(answer.as_dict())
        return
    changes.say_exposure(answer)
