"""`footlight read sample`"""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight import quantities as q
from footlight.cli.options import say
from footlight.errors import field

if TYPE_CHECKING:
    from footlight.actions.invent_scan import Kind

# Kind of strip -> present dose, distance of its steps, how many.
_USUAL = {
    "strip": ("8 s", "1 stop", 7),
    "flash": ("2 s", "1/2 stop", 7),
    "flash-bands": ("2 s", "1/2 stop", 5),
}


@click.command
@click.argument("target", type=click.Path(path_type=Path))
@click.option(
    "--kind",
    type=click.Choice(["strip", "flash", "flash-bands", "print"]),
    default="strip",
    show_default=True,
    help="What to invent: a crossed strip, a pre-flash strip, a print.",
)
@click.option(
    "--family",
    default="hits",
    show_default=True,
    help="Kind of curve: hits, logistic, normal, mixed, turning.",
)
@click.option(
    "--present", metavar="TIME", help="The dose given now, about which its steps lie: 8 s, flash 2 s."
)
@click.option("--step", metavar="STOPS", help="How far the steps are apart: 1 stop, flash 1/2 stop.")
@click.option("--steps", "count", type=int, help="How many, without those at the ends: 7, flash-bands 5.")
@click.option("--ppi", type=float, default=600, show_default=True, help="Resolution.")
@click.option("--seed", type=int, default=1, show_default=True, help="Another seed, another paper.")
def command(
    target: Path,
    kind: "Kind",
    family: str,
    present: str | None,
    step: str | None,
    count: int | None,
    ppi: float,
    seed: int,
) -> None:
    """Write TARGET (.tif), the scan of a strip on an invented paper with a grey tablet; say the truth.

    \b
        footlight read sample strip.tif
        footlight read sample flash.tif --kind flash
        footlight read sample print.tif --kind print
    """
    from footlight.actions.invent_scan import invent_print, invent_strip
    from footlight.written.strip_doses import flash_totals_s, strip_totals_s

    if kind == "print":
        say(invent_print(target, ppi, seed))
        return
    centre, apart, many = _USUAL[kind]
    totals_s = strip_totals_s if kind == "strip" else flash_totals_s
    totals = totals_s(None, present or centre, step or apart, count or many)
    present_s = q.parse_seconds(present or centre, field("present"), least_s=0.01)
    say(invent_strip(target, kind, totals, present_s, family=family, ppi=ppi, seed=seed))
