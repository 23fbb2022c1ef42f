"""`footlight plan`"""

import time
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import notebook_option, print_json, terminal_width

if TYPE_CHECKING:
    from footlight.sequence import Judged


@click.command
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--setups",
    type=click.Path(path_type=Path),
    help="A light-setups file to be used instead of the one that FILE names.",
)
@click.option(
    "--judged",
    type=click.Choice(["least", "middle", "most"]),
    default="middle",
    show_default=True,
    help="When the steps judged by eye are taken to end.",
)
@notebook_option
@click.option("--json", "as_json", is_flag=True, help="Print JSON, units in the keys.")
def command(file: Path, setups: Path | None, judged: "Judged", book: Path, as_json: bool) -> None:
    """Check a sequence file; show its time line and its arithmetic.

    What is wrong is said in one line: file, line, step, key, value, what is allowed. What is right is shown
    as the controller will run it, with the time of each light worked out from its light setup.
    Where there is a notebook, it says which baths do not last for it.

    \b
        footlight new reversal-print
        footlight plan reversal-print.toml
        footlight plan reversal-print.toml --judged most --json
    """
    from footlight.actions.plan_sequence import plan_sequence
    from footlight.views.plan import plan_as_dict, plan_lines

    plan = plan_sequence(file, book, int(time.time()), setups)
    if plan.baths.trouble:
        click.echo(f"note: {plan.baths.trouble}", err=True)
    if as_json:
        print_json(plan_as_dict(plan.compiled, judged, plan.baths.forecast))
        return
    for line in plan_lines(plan.compiled, judged, plan.baths.forecast, terminal_width()):
        click.echo(line)
