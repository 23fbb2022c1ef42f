"""`footlight light tolerances`"""

import click

from footlight.cli.options import json_option, print_json
from footlight.light.tolerances import REASONS, Tolerances
from footlight.written.changes import OFFS

_WORDS = {field: word for word, (field, _) in OFFS.items()}


@click.command
@json_option
def command(as_json: bool) -> None:
    """What is taken for granted about measuring, with the reason for each figure.

    Give your own figure with --off, its word and a value: `--off "height 5 mm"`.

    \b
        footlight light tolerances
    """
    values = vars(Tolerances())
    if as_json:
        print_json({name: {"value": value, "reason": REASONS[name]} for name, value in values.items()})
        return
    for name, value in values.items():
        word = _WORDS.get(name)
        click.echo(f"{name} = {value:.3g}" + (f"   (--off '{word} ...')" if word else ""))
        click.echo(click.wrap_text(REASONS[name], width=100, initial_indent="    ", subsequent_indent="    "))
