"""`footlight light given`"""

import click

from footlight import quantities as q
from footlight.cli.light import options as light_options
from footlight.cli.options import json_option, print_json, say
from footlight.errors import field
from footlight.light.inverse import outcome
from footlight.written import changes
from footlight.written import light as written


@click.command
@click.argument("found")
@click.argument("new")
@click.argument("given")
@light_options.change_options
@json_option
def command(found: str, new: str, given: str, as_json: bool, **options) -> None:
    """What a GIVEN time would do in a NEW arrangement, against the exposure FOUND good.

    \b
        footlight light given "6 s, 620 mm, f/11" "800 mm" "8 s"
    """
    seconds, at, change = changes.start(found, **options)
    to = written.changed(at, new, field("new"))
    said = outcome(seconds, at, to, q.parse_seconds(given, field("given")), change)
    if as_json:
        print_json({"stops": round(said.stops, 4), "needed": said.needed.as_dict()})
        return
    say([said.summary, f"needed: {said.needed.arithmetic}"], said.needed.notes)
