"""`footlight reinstate`: what was taken back stands again."""

import time
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json
from footlight.cli.types import FROM_1


@click.command("reinstate")
@click.argument("number", required=False, type=FROM_1)
@notebook_option
@json_option
def command(number: int | None, book: Path, as_json: bool) -> None:
    """Let stand again what 'footlight undo' took back last; again for the one before.

    With a NUMBER of 'footlight history', that act alone, if what it needs stands. It takes its old place: of
    two verdicts the one that was written later still holds. A reference that 'accept' wrote into a
    light-setups file is written once more, unless the file says something else by now.

    \b
    Example:
      footlight reinstate
      footlight reinstate 17
    """
    from footlight.actions.turn_act import reinstate_act
    from footlight.views import acts

    turned = reinstate_act(book, number, int(time.time()))
    if as_json:
        print_json(acts.as_dict("reinstated", turned))
    else:
        click.echo("\n".join(acts.turned("reinstated", turned)))
