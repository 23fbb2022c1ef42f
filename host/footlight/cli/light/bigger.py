"""`footlight light bigger`"""

import click

from footlight import quantities as q
from footlight.cli.light import options as light_options
from footlight.cli.options import json_option, print_json, say
from footlight.errors import field
from footlight.light.bigger import Bigger, same_exposure
from footlight.views.exposures import bigger_lines
from footlight.written import changes


@click.command
@click.argument("found")
@click.argument("old")
@click.argument("new")
@click.option("--within", metavar="STOPS", help="What the corners may miss; without it, as much as they did.")
@light_options.change_options
@json_option
def command(found: str, old: str, new: str, within: str | None, as_json: bool, **options) -> None:
    """The same exposure for another sheet: FOUND good on OLD, wanted on NEW.

    \b
        footlight light bigger "6 s, 433 mm, f/11" 4x5 8x10
        footlight light bigger "6 s, 433 mm, f/11" 4x5 8x10 --within "0.1 stop"
    """
    seconds, at, change = changes.start(found, **options)
    answer = same_exposure(
        seconds,
        at,
        q.parse_sheet(old, field("old")),
        q.parse_sheet(new, field("new")),
        tolerance_stops=q.parse_stops(within, field("within")) if within else None,
        change=change,
    )
    if as_json:
        print_json(_as_dict(answer))
        return
    say(bigger_lines(answer))


def _as_dict(answer: Bigger) -> dict[str, object]:
    return {
        "corner_stops_before": round(answer.before.corner_stops, 4),
        "corner_stops_if_it_stays": round(answer.stay.corner_stops, 4),
        "can_stay": answer.can_stay,
        "height_mm": answer.raised.height_mm,
        "corner_stops": round(answer.raised.corner_stops, 4),
        "area_ratio": round(answer.area_ratio, 4),
        "answers": [exposure.as_dict() for exposure in answer.answers],
    }
