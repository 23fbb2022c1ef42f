"""`footlight light dead-time`"""

import re

import click

from footlight import quantities as q
from footlight.cli.options import json_option, print_json
from footlight.errors import InputError
from footlight.light.dead_time import from_match


@click.command("dead-time")
@click.argument("long")
@click.argument("short")
@click.option(
    "--off", metavar="STOPS", default="0.03", show_default=True, help="How well the two greys match."
)
@json_option
def command(long: str, short: str, off: str, as_json: bool) -> None:
    """Dead time, from one LONG exposure that matches many SHORT ones in grey.

    Plan the test with `footlight light strip dead-time`; all times are lamp-on times.

    \b
        footlight light dead-time "10 s" "10 x 1.05 s"
    """
    many = re.fullmatch(r"\s*(\d+)\s*[xX×]\s*(.+)", short)
    if many is None:
        raise InputError(f"SHORT: '{short}' must say how many and how long, for example '10 x 1.05 s'")
    found = from_match(
        q.parse_seconds(long, "LONG"),
        int(many[1]),
        q.parse_seconds(many[2], "SHORT"),
        q.parse_stops(off, "--off", least=0.001, most=1),
    )
    if as_json:
        print_json({"dead_ms": round(found.dead_ms, 1), "uncertainty_ms": round(found.uncertainty_ms, 1)})
        return
    click.echo(found.summary)
