"""`footlight light long`"""

import click

from footlight import quantities as q
from footlight.cli.options import json_option, print_json
from footlight.light.departure import Match, fit
from footlight.written.lists import pairs


@click.command
@click.argument("strips", nargs=-1, required=True)
@click.option(
    "--off", metavar="STOPS", default="0.1", show_default=True, help="How well one strip is matched."
)
@json_option
def command(strips: tuple[str, ...], off: str, as_json: bool) -> None:
    """The exponent of long exposures, from your own STRIPS of one paper.

    Each is how much dimmer the light was (by stop, height or neutral density) and the time that gave the
    same grey. There is no table of papers here: p is measured, and holds between the times tried.

    \b
        footlight light long "0 stops, 4 s" "2 stops, 17.5 s" "4 stops, 78 s"
    """
    read = pairs(strips, q.parse_stops, q.parse_seconds, "strip", "'2 stops, 17.5 s'")
    found = fit(
        [Match(stops, seconds) for stops, seconds in read], q.parse_stops(off, "--off", least=0, most=1)
    )
    if as_json:
        print_json(
            {
                "p": round(found.departure.p, 4),
                "p_uncertainty": round(found.departure.p_uncertainty, 4),
                "scatter_stops": round(found.scatter_stops, 4),
                "shortest_s": found.shortest_s,
                "longest_s": found.longest_s,
            }
        )
        return
    p, p_off = found.departure.p, found.departure.p_uncertainty
    click.echo(found.summary)
    click.echo(f"use it as: footlight light time ... --p {p:.3f} --p-off {p_off:.3f}")
