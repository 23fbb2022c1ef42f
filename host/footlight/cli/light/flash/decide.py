"""`footlight light flash decide`"""

import click

from footlight import quantities as q
from footlight.cli.light import printing
from footlight.cli.light.pairs import rows
from footlight.light.preflash import MOST_LOSS_D, Trial, decide


@click.command
@click.argument("bands", nargs=-1, required=True)
@click.option(
    "--loss", metavar="DENSITY", default=f"{MOST_LOSS_D} D", show_default=True, help="Black that may be lost."
)
@click.option(
    "--tones", nargs=2, default=("darker", "lighter"), show_default=True, help="Names of the two tones."
)
@click.option(
    "--filter", "filter_name", metavar="NAME", help="Filter of the flash, to be told with the answer."
)
@printing.as_json
def command(
    bands: tuple[str, ...], loss: str, tones: tuple[str, str], filter_name: str | None, as_json: bool
) -> None:
    """The largest flash whose loss of black is within --loss and that still separates two shadow tones more.

    BANDS are flash, black, and the darker and the lighter shadow tone, read from the finished positive; the
    first has no flash.

    \b
        footlight light flash decide "0 s, 2.10 D, 2.08 D, 2.06 D" "1 s, 2.09 D, 2.06 D, 1.99 D" \\
            "2 s, 2.06 D, 2.00 D, 1.85 D" "4 s, 1.98 D, 1.90 D, 1.70 D" --tones bark soil
    """
    density = q.parse_density_d
    example = "'2 s, 2.06 D, 2.00 D, 1.85 D'"
    read = rows(bands, (q.parse_seconds, density, density, density), "band", example)
    found = decide([Trial(*row) for row in read], density(loss, "--loss"))
    if as_json:
        printing.say_json(
            {
                "flash_s": found.chosen.flash_s,
                "loss_d": round(found.loss_d, 4),
                "gain_d": round(found.gain_d, 4),
                "tones": list(tones),
                "filter": filter_name,
                "reason": found.reason,
            }
        )
        return
    click.echo(found.summary)
    click.echo(f"tones: {tones[0]} and {tones[1]}; filter of the flash: {filter_name or 'none given'}")
