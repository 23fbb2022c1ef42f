"""`footlight light strip plain`"""

import click

from footlight import quantities as q
from footlight.cli.light.strip import shared as strips
from footlight.light.strip.build import strip
from footlight.light.strip.plan import Manner
from footlight.light.strip.steps import arithmetic_steps


@click.command("plain")
@click.argument("exposure")
@click.option("--add", metavar="TIME", help="From band to band; without it, as much as the first band.")
@click.option("--steps", type=int, default=5, show_default=True, help="How many bands.")
@click.option("--anchor/--no-anchor", default=False, show_default=True, help="End with ten times the dose.")
@strips.manner_option
@strips.layout_options
@strips.light_options
def command(
    exposure: str,
    add: str | None,
    steps: int,
    anchor: bool,
    manner: Manner,
    along: str,
    blade: str | None,
    axis: str | None,
    setup: str | None,
    setups: str,
    toml: str | None,
    as_json: bool,
) -> None:
    """Equal steps in seconds. EXPOSURE gives the first band.

    \b
        footlight light strip plain "2 s, 600 mm, f/11" --steps 4 --manner uncovered
    """
    lit = strips.read_light(exposure, setup, setups)
    layout = strips.read_layout(along, blade, axis)
    add_s = q.parse_seconds(add, "--add") if add else lit.centre_s
    plan = strip(
        lit.setup,
        arithmetic_steps(lit.centre_s, add_s, steps),
        layout,
        name="plain",
        purpose="equal steps in seconds",
        manner=manner,
        anchor=anchor,
    )
    strips.finish(plan, lit, toml, as_json)
