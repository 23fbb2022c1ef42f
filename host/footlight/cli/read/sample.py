"""`footlight read sample`"""

import math
from pathlib import Path

import click

from footlight import quantities as q
from footlight.errors import InputError


@click.command
@click.argument("target", type=click.Path(path_type=Path))
@click.option(
    "--family",
    default="hits",
    show_default=True,
    help="Kind of curve: hits, logistic, normal, mixed, turning.",
)
@click.option(
    "--present", default="8 s", show_default=True, help="The dose given now; its steps lie about it."
)
@click.option("--step", default="1 stop", show_default=True, help="How far the steps are apart.")
@click.option(
    "--steps", "count", type=int, default=7, show_default=True, help="How many, between zero and anchor."
)
@click.option("--ppi", type=float, default=600, show_default=True, help="Resolution.")
@click.option("--seed", type=int, default=1, show_default=True, help="Another seed, another paper.")
def command(target: Path, family: str, present: str, step: str, count: int, ppi: float, seed: int) -> None:
    """Write TARGET (.tif), the scan of a strip on an invented paper with a grey tablet; say the truth.

    \b
        footlight read sample strip.tif
    """
    from footlight.strips import need

    need.scans()
    from footlight.cli.read import doses
    from footlight.strips.simulated import sample

    if target.suffix.lower() not in (".tif", ".tiff"):
        raise InputError(f"TARGET: '{target.name}' must end in .tif")
    if not 150 <= ppi <= 1200:
        raise InputError(f"--ppi: {ppi:g}; allowed is 150 to 1200")
    present_s = q.parse_seconds(present, "--present", least_s=0.01)
    totals = doses.totals_s(None, present, step, count)
    stops = [math.log2(total / present_s) if total else -math.inf for total in totals]
    for line in sample.write(target, family, stops, present_s, ppi, seed):
        click.echo(line)
