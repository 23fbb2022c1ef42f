"""`footlight light strip second`"""

import click

from footlight.cli.light.strip import shared as strips
from footlight.cli.light.strip.shared import Lit
from footlight.light.strip import ready
from footlight.light.strip.build import Layout
from footlight.light.strip.plan import Manner, StripPlan


@click.command("second")
@strips.step_options
@strips.manner_option
@strips.planned
def command(lit: Lit, layout: Layout, step: str | None, steps: int | None, manner: Manner) -> StripPlan:
    """Second exposures about a centre, from a band that gets none to an anchor of ten times the dose.

    A first strip goes in whole stops, the next one in thirds about the best band.

    \b
        footlight light strip second "6 s, 600 mm, f/11, lens 80 mm" --blade "30 mm"
        footlight light strip second "8 s" --setup second --step "1/3 stop" --toml strip.toml
    """
    given = strips.read_steps(step, steps)
    return ready.second_exposure(lit.setup, lit.centre_s, layout, manner=manner, **given)
