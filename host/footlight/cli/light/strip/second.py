"""`footlight light strip second`"""

import click

from footlight.cli.light.strip import shared as strips
from footlight.light.strip import ready
from footlight.light.strip.plan import Manner


@click.command
@click.argument("exposure")
@strips.step_options
@strips.manner_option
@strips.layout_options
@strips.light_options
def command(
    exposure: str,
    step: str | None,
    steps: int | None,
    manner: Manner,
    along: str,
    blade: str | None,
    axis: str | None,
    setup: str | None,
    setups: str,
    toml: str | None,
    as_json: bool,
) -> None:
    """Second exposures about a centre, from a band that gets none to an anchor of ten times the dose.

    A first strip goes in whole stops, the next one in thirds about the best band.

    \b
        footlight light strip second "6 s, 600 mm, f/11, lens 80 mm" --blade "30 mm"
        footlight light strip second "8 s" --setup second --step "1/3 stop" --toml strip.toml
    """
    lit = strips.read_light(exposure, setup, setups)
    layout = strips.read_layout(along, blade, axis)
    plan = ready.second_exposure(
        lit.setup,
        lit.centre_s,
        layout,
        manner=manner,
        **strips.read_steps(step, steps),
    )
    strips.finish(plan, lit, toml, as_json)
