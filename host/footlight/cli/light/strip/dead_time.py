"""`footlight light strip dead-time`"""

import click

from footlight.cli.light.strip import shared as strips
from footlight.cli.light.strip.shared import Lit
from footlight.light.strip import ready
from footlight.light.strip.build import Layout
from footlight.light.strip.plan import StripPlan


@click.command("dead-time")
@click.option("--count", type=int, default=10, show_default=True, help="How many short exposures.")
@strips.planned
def command(lit: Lit, layout: Layout, count: int) -> StripPlan:
    """Many short exposures in one band beside single ones in others: which single one matches?

    EXPOSURE gives the short one. All are lamp-on times: for this run the light setup must say
    dead_time = "0 s". Use dry paper, and a mid-grey.

    \b
        footlight light strip dead-time "0.5 s, 600 mm, f/11, lens 80 mm"
    """
    return ready.dead_time(lit.setup, layout, short_s=lit.centre_s, count=count)
