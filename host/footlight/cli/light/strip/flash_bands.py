"""`footlight light strip flash-bands`"""

import click

from footlight.cli.light.strip import shared as strips
from footlight.light.strip import ready


@click.command("flash-bands")
@click.argument("exposure")
@strips.step_options
@strips.layout_options
@strips.light_options
def command(
    exposure: str,
    step: str | None,
    steps: int | None,
    along: str,
    blade: str | None,
    axis: str | None,
    setup: str | None,
    setups: str,
    toml: str | None,
    as_json: bool,
) -> None:
    """Flashes in bands; then one camera exposure of a shadow scale across them, and the full reversal.

    Read black and two shadow tones in each band and ask `footlight light flash decide`.

    \b
        footlight light strip flash-bands "2 s, 900 mm, f/16, lens 80 mm" --along "127 mm"
    """
    lit = strips.read_light(exposure, setup, setups)
    layout = strips.read_layout(along, blade, axis)
    given = strips.read_steps(step, steps)
    plan = ready.preflash_decision(lit.setup, lit.centre_s, layout, **given)
    strips.finish(plan, lit, toml, as_json)
