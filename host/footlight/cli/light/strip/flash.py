"""`footlight light strip flash`"""

import click

from footlight.cli.light.strip import shared as strips
from footlight.light.strip import ready


@click.command("flash")
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
    """Flashes in half stops on dry paper; then first developer and fix, no reversal.

    Read the densities and ask `footlight light flash threshold`. It is a quick stand-in: what a flash is
    worth to the positive only the deciding strip tells (`flash-bands`).

    \b
        footlight light strip flash "2 s, 900 mm, f/16, lens 80 mm"
    """
    lit = strips.read_light(exposure, setup, setups)
    layout = strips.read_layout(along, blade, axis)
    given = strips.read_steps(step, steps)
    plan = ready.preflash_threshold(lit.setup, lit.centre_s, layout, **given)
    strips.finish(plan, lit, toml, as_json)
