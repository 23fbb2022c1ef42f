"""`footlight light strip dead-time`"""

import click

from footlight.cli.light.strip import shared as strips
from footlight.light.strip import ready


@click.command("dead-time")
@click.argument("exposure")
@click.option("--count", type=int, default=10, show_default=True, help="How many short exposures.")
@strips.layout_options
@strips.light_options
def command(
    exposure: str,
    count: int,
    along: str,
    blade: str | None,
    axis: str | None,
    setup: str | None,
    setups: str,
    toml: str | None,
    as_json: bool,
) -> None:
    """Many short exposures in one band beside single ones in others: which single one matches?

    EXPOSURE gives the short one. All are lamp-on times: for this run the light setup must say
    dead_time = "0 s". Use dry paper, and a mid-grey.

    \b
        footlight light strip dead-time "0.5 s, 600 mm, f/11, lens 80 mm"
    """
    lit = strips.read_light(exposure, setup, setups)
    layout = strips.read_layout(along, blade, axis)
    plan = ready.dead_time(lit.setup, layout, short_s=lit.centre_s, count=count)
    strips.finish(plan, lit, toml, as_json)
