"""`footlight read sample`"""

from pathlib import Path

import click

from footlight import quantities as q
from footlight.errors import InputError


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
    kind: str,
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
    from footlight.strips import need

    need.scans()
    from footlight.strips.simulated import sample

    if target.suffix.lower() not in (".tif", ".tiff"):
        raise InputError(f"TARGET: '{target.name}' must end in .tif")
    if not 150 <= ppi <= 1200:
        raise InputError(f"--ppi: {ppi:g}; allowed is 150 to 1200")
    if kind == "print":
        said = sample.write_print(target, ppi, seed)
    else:
        totals, present_s = _totals(kind, present, step, count)
        said = sample.write(target, kind, family, totals, present_s, ppi, seed)
    for line in said:
        click.echo(line)


def _totals(
    kind: str, present: str | None, step: str | None, count: int | None
) -> tuple[tuple[float, ...], float]:
    """Light of every step [s], and the present dose [s]."""
    from footlight.cli.read import doses

    usual = {
        "strip": ("8 s", "1 stop", 7),
        "flash": ("2 s", "1/2 stop", 7),
        "flash-bands": ("2 s", "1/2 stop", 5),
    }
    centre, apart, many = usual[kind]
    totals_of = doses.totals_s if kind == "strip" else doses.flashes_s
    present_s = q.parse_seconds(present or centre, "--present", least_s=0.01)
    return totals_of(None, present or centre, step or apart, count or many), present_s
