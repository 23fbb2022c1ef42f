"""`footlight light strip flash`"""

import click

from footlight.cli.light.strip import shared as strips
from footlight.cli.light.strip.shared import Lit
from footlight.light.strip import ready
from footlight.light.strip.build import Layout
from footlight.light.strip.plan import StripPlan


@click.command("flash")
@strips.step_options
@strips.planned
def command(lit: Lit, layout: Layout, step: str | None, steps: int | None) -> StripPlan:
    """Flashes in half stops on dry paper; then first developer and fix, no reversal.

    Read the densities and ask `footlight light flash threshold`. It is a quick stand-in: what a flash is
    worth to the positive only the deciding strip tells (`flash-bands`).

    \b
        footlight light strip flash "2 s, 900 mm, f/16, lens 80 mm"
    """
    return ready.preflash_threshold(lit.setup, lit.centre_s, layout, **strips.read_steps(step, steps))
