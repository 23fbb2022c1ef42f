"""`footlight light mains`"""

import click

from footlight import quantities as q
from footlight.cli.options import json_option, print_json
from footlight.light.lamp import LUMINOUS_EXPONENT, PAPER_EXPONENT, drift_stops


@click.command
@click.argument("volts")
@click.option(
    "--usual",
    metavar="VOLTS",
    default="230 V",
    show_default=True,
    help="At the time of the exposure found good.",
)
@click.option(
    "--exponent",
    metavar="N",
    default=f"{PAPER_EXPONENT}",
    show_default=True,
    help="Light goes as V to the N.",
)
@json_option
def command(volts: str, usual: str, exponent: str, as_json: bool) -> None:
    """What a change of mains voltage costs under a filament lamp, as blue-sensitive paper sees it.

    The eye (and a lux meter) sees less of it, with an exponent of 3.4.

    \b
        footlight light mains "218 V" --usual "230 V"
    """
    now_v, usual_v = q.parse_volts(volts, "VOLTS"), q.parse_volts(usual, "--usual")
    n = q.parse_number(exponent, "--exponent", least=0.1, most=10)
    stops, seen = drift_stops(now_v, usual_v, n), drift_stops(now_v, usual_v, LUMINOUS_EXPONENT)
    if as_json:
        print_json(
            {"paper_stops": round(stops, 4), "luminous_stops": round(seen, 4), "time_factor": 2**-stops}
        )
        return
    click.echo(
        f"{stops:+.2f} stop of light for the paper ({seen:+.2f} for the eye): give × {2**-stops:.3f} the time"
    )
