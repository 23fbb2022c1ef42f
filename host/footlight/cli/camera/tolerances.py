"""`footlight camera tolerances`"""

import click

from footlight.camera.tolerances import REASONS, Tolerances
from footlight.cli.options import json_option, print_json


@click.command
@json_option
def command(as_json: bool) -> None:
    """What is taken for granted about metering, with the reason for each figure.

    Give your own with --off: `camera time ... --off "reading 1/4 stop" --off "draw 1 mm"`.

    \b
        footlight camera tolerances
    """
    values = vars(Tolerances())
    if as_json:
        print_json({name: {"value": value, "reason": REASONS[name]} for name, value in values.items()})
        return
    for name, value in values.items():
        click.echo(f"{name} = {value:.3g}")
        click.echo(click.wrap_text(REASONS[name], width=100, initial_indent="    ", subsequent_indent="    "))
