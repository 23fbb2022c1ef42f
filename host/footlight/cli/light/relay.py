"""`footlight light relay`"""

from typing import get_args

import click

from footlight import quantities as q
from footlight.cli.options import json_option, print_json, say
from footlight.light.relay import SOUND_STOPS, scatter_ms, shortest_sound_s
from footlight.light.setup import RelayKind
from footlight.views.table import columns


@click.command
@click.option("--mains", metavar="HZ", default="50", show_default=True, help="Mains frequency, 50 or 60.")
@click.option(
    "--within", metavar="STOPS", default=f"{SOUND_STOPS}", show_default=True, help="What switching may cost."
)
@json_option
def command(mains: str, within: str, as_json: bool) -> None:
    """The shortest time that each kind of relay can do soundly.

    \b
        footlight light relay --mains 60
    """
    mains_hz = q.parse_number(mains.lower().removesuffix("hz").strip(), "--mains")
    sound_stops = q.parse_stops(within, "--within", least=0.001, most=1)
    found = {
        kind: (scatter_ms(kind, mains_hz), shortest_sound_s(kind, mains_hz, sound_stops))
        for kind in get_args(RelayKind)
    }
    if as_json:
        print_json({kind: {"scatter_ms": s, "shortest_s": round(t, 4)} for kind, (s, t) in found.items()})
        return
    rows = [
        (kind, f"± {scatter:.1f} ms", q.format_seconds(shortest))
        for kind, (scatter, shortest) in found.items()
    ]
    say(columns(("relay", "scatter", f"shortest for {sound_stops:g} stop"), rows))
