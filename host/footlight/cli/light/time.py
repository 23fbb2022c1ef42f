"""`footlight light time`"""

import click

from footlight.cli.light import options as light_options
from footlight.cli.options import json_option, print_json, say
from footlight.errors import field
from footlight.light.inverse import choices
from footlight.views.exposures import choice_lines
from footlight.written import changes
from footlight.written import light as written


@click.command
@click.argument("found")
@click.argument("new")
@light_options.clicks
@light_options.change_options
@json_option
def command(found: str, new: str, clicks: str, as_json: bool, **options) -> None:
    """The time for another arrangement.

    FOUND is the exposure found good (or 'setup NAME', of a light-setups file), NEW what changes. The first
    answer keeps the seconds and changes the stop, so that long-exposure behaviour stays out of it; the
    second keeps the stop.

    \b
        footlight light time "6 s, 620 mm, f/11" "800 mm"
        footlight light time "10 s, 400 mm, f/8" "600 mm, f/11"
        footlight light time "6 s, 620 mm, f/11, lens 50 mm" "lens 80 mm"
    """
    seconds, at, change = changes.start(found, **options)
    to = written.changed(at, new, field("new"))
    answers = choices(seconds, at, to, change, parts=changes.CLICKS[clicks])
    if as_json:
        print_json({"answers": [answer.as_dict() for answer in answers]})
        return
    say(choice_lines(answers))
