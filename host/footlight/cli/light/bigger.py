"""`footlight light bigger`"""

import click

from footlight import quantities as q
from footlight.cli.light import options as light_options
from footlight.cli.options import json_option, print_json, say
from footlight.light.bigger import Bigger, same_exposure
from footlight.views.exposures import choice_lines
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
        q.parse_sheet(old, "OLD"),
        q.parse_sheet(new, "NEW"),
        tolerance_stops=q.parse_stops(within, "--within") if within else None,
        change=change,
    )
    if as_json:
        print_json(_as_dict(answer))
        return
    _say(answer)


def _say(answer: Bigger) -> None:
    new = answer.stay.sheet
    click.echo(f"{answer.before.summary}; {answer.stay.summary}")
    if answer.can_stay:
        click.echo(f"{q.format_sheet(new)} is even enough where the lamp is: the exposure stays.")
    else:
        click.echo(f"for corners within {answer.tolerance_stops:.2f} stop, {answer.raised.height_mm:.0f} mm:")
    say(choice_lines(answer.answers))
    if answer.area_ratio > 1.01:
        click.echo(
            f"! The sheet has {answer.area_ratio:.3g} times the area: so much more of each bath is used up."
        )


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
