"""`footlight light strip flash-bands`"""

import click

from footlight.cli.light.strip import shared as strips
from footlight.cli.light.strip.shared import Lit
from footlight.light.strip import ready
from footlight.light.strip.build import Layout
from footlight.light.strip.plan import StripPlan


@click.command("flash-bands")
@strips.step_options
@strips.planned
def command(lit: Lit, layout: Layout, step: str | None, steps: int | None) -> StripPlan:
    """Flashes in bands; then one camera exposure of a shadow scale across them, and the full reversal.

    Read black and two shadow tones in each band and ask `footlight light flash decide`.

    \b
        footlight light strip flash-bands "2 s, 900 mm, f/16, lens 80 mm" --along "127 mm"
    """
    return ready.preflash_decision(lit.setup, lit.centre_s, layout, **strips.read_steps(step, steps))
