"""`footlight beside`: two prints side by side."""

from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json
from footlight.cli.types import FROM_1


@click.command("beside")
@click.argument("left", type=FROM_1)
@click.argument("right", type=FROM_1)
@click.option("--all", "every", is_flag=True, help="Every row; those that differ are marked with ≠.")
@click.option("--controller", help="Which controller's sheets, if several have such numbers.")
@notebook_option
@json_option
def command(left: int, right: int, every: bool, controller: str | None, book: Path, as_json: bool) -> None:
    """Show prints LEFT and RIGHT side by side: planned and done, paper, baths, camera, what was written.

    Only what differs is shown: times of baths from a second on, light from a hundredth of a stop. The
    difference of two lights is what the paper got: other heights and stops are reckoned in.

    \b
    Example:
      footlight beside 41 44
      footlight beside 41 44 --all
    """
    from footlight.actions.recall_print import recall_prints
    from footlight.views import comparison

    rows = comparison.rows(*recall_prints(book, [left, right], controller))
    if as_json:
        print_json([row.as_dict() for row in rows])
        return
    for line in comparison.lines(left, right, rows, every):
        click.echo(line)
