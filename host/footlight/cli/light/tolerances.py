"""`footlight light tolerances`"""

import click

from footlight.cli.light import printing
from footlight.light.tolerances import REASONS, Tolerances


@click.command
@printing.as_json
def command(as_json: bool) -> None:
    """What is taken for granted about measuring, with the reason for each figure.

    \b
        footlight light tolerances
    """
    values = vars(Tolerances())
    if as_json:
        printing.say_json({name: {"value": value, "reason": REASONS[name]} for name, value in values.items()})
        return
    for name, value in values.items():
        click.echo(f"{name} = {value:.3g}")
        click.echo(click.wrap_text(REASONS[name], width=100, initial_indent="    ", subsequent_indent="    "))
