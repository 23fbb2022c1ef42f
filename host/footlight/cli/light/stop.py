"""`footlight light stop`"""

import click

from footlight import quantities as q
from footlight.cli.light import options as light_options
from footlight.cli.options import json_option, print_json, say
from footlight.errors import field
from footlight.light.inverse import stop_for_time
from footlight.views.exposures import exposure_lines
from footlight.written import changes
from footlight.written import light as written


@click.command
@click.argument("found")
@click.argument("new")
@click.option("--for", "wanted", metavar="TIME", help="The time wanted; without it, that of FOUND.")
@light_options.clicks
@light_options.change_options
@json_option
def command(found: str, new: str, wanted: str | None, clicks: str, as_json: bool, **options) -> None:
    """Which stop gives a time in another arrangement.

    The answer is an engraved stop; what it is off is put into the time.

    \b
        footlight light stop "6 s, 620 mm, f/11" "800 mm"
        footlight light stop "6 s, 620 mm, f/11" "620 mm" --for "12 s"
    """
    seconds, at, change = changes.start(found, **options)
    to = written.changed(at, new, field("new"))
    wanted_s = q.parse_seconds(wanted, field("wanted")) if wanted else seconds
    answer = stop_for_time(seconds, at, to, wanted_s, change, parts=changes.CLICKS[clicks])
    if as_json:
        print_json(answer.as_dict())
        return
    say(exposure_lines(answer))
