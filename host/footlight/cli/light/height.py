"""`footlight light height`"""

import click

from footlight import quantities as q
from footlight.cli.light import options as light_options
from footlight.cli.options import json_option, print_json, say
from footlight.errors import field
from footlight.light.inverse import height_for_time
from footlight.views.exposures import exposure_lines
from footlight.written import changes
from footlight.written import light as written


@click.command
@click.argument("found")
@click.option("--for", "wanted", metavar="TIME", required=True, help="The time wanted.")
@click.option("--new", metavar="PARTS", help="What changes besides the height, as 'f/8'.")
@light_options.change_options
@json_option
def command(found: str, wanted: str, new: str | None, as_json: bool, **options) -> None:
    """Which height gives a time. Height is lens pupil to sheet in its tray.

    \b
        footlight light height "6 s, 620 mm, f/11" --for "10 s"
        footlight light height "6 s, 620 mm, f/11" --for "6 s" --new "f/8"
    """
    seconds, at, change = changes.start(found, **options)
    to = written.changed(at, new, field("new")) if new else at
    answer = height_for_time(seconds, at, to, q.parse_seconds(wanted, field("wanted")), change)
    if as_json:
        print_json(answer.as_dict())
        return
    say(exposure_lines(answer))
