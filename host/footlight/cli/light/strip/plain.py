"""`footlight light strip plain`"""

import click

from footlight import quantities as q
from footlight.cli.light.strip import shared as strips
from footlight.cli.light.strip.shared import Lit
from footlight.light.strip.build import Layout, strip
from footlight.light.strip.plan import Manner, StripPlan
from footlight.light.strip.steps import arithmetic_steps


@click.command("plain")
@click.option("--add", metavar="TIME", help="From band to band; without it, as much as the first band.")
@click.option("--steps", type=int, default=5, show_default=True, help="How many bands.")
@click.option("--anchor/--no-anchor", default=False, show_default=True, help="End with ten times the dose.")
@strips.manner_option
@strips.planned
def command(lit: Lit, layout: Layout, add: str | None, steps: int, anchor: bool, manner: Manner) -> StripPlan:
    """Equal steps in seconds. EXPOSURE gives the first band.

    \b
        footlight light strip plain "2 s, 600 mm, f/11" --steps 4 --manner uncovered
    """
    add_s = q.parse_seconds(add, "--add") if add else lit.centre_s
    return strip(
        lit.setup,
        arithmetic_steps(lit.centre_s, add_s, steps),
        layout,
        name="plain",
        purpose="equal steps in seconds",
        manner=manner,
        anchor=anchor,
    )
