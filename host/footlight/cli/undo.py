"""`footlight undo`: take back what was written last, or one act by its number."""

import time
from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.cli.types import FROM_1


@click.command("undo")
@click.argument("number", required=False, type=FROM_1)
@notebook_option
@json_option
def command(number: int | None, book: Path, as_json: bool) -> None:
    """Take back what the last command wrote into the notebook; again for the one before.

    With a NUMBER of 'footlight history', that act alone, if nothing that was written later needs it.

    It is kept in the notebook with its date and no longer shown; 'footlight reinstate' lets it stand again.
    What the controller recorded is never undone. A reference that 'accept' wrote into a light-setups file is
    put back as it was, unless the file says something else by now: then that is said, and the file is left
    alone.

    \b
    Example:
      footlight undo
      footlight undo 17
    """
    from footlight.actions.turn_act import undo_act
    from footlight.views import acts

    turned = undo_act(book, number, int(time.time()))
    if as_json:
        print_json(acts.as_dict("taken_back", turned))
        return
    click.echo("\n".join(acts.turned("taken back", turned)))
    hint("'footlight reinstate' lets it stand again.")
