"""`footlight plan`"""

import json
import time
from pathlib import Path

import click

from footlight import sequence
from footlight.cli import ahead
from footlight.cli.options import notebook_option
from footlight.sequence.plan import plan, plan_as_dict


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
def command(file: Path, setups: Path | None, judged: sequence.Judged, book: Path, as_json: bool) -> None:
    """Check a sequence file; show its time line and its arithmetic.

    What is wrong is said in one line: file, line, step, key, value, what is allowed. What is right is shown
    as the controller will run it, with the time of each light worked out from its light setup.
    Where there is a notebook, it says which baths do not last for it.

    \b
        footlight new reversal-print
        footlight plan reversal-print.toml
        footlight plan reversal-print.toml --judged most --json
    """
    compiled = sequence.compile(sequence.load(file, setups))
    baths = ahead.baths_ahead(compiled, book, int(time.time()))
    if as_json:
        from footlight.baths.forecast import as_dict

        known = as_dict(baths) if baths else {}
        click.echo(json.dumps(plan_as_dict(compiled, judged) | known, indent=2))
        return
    click.echo("\n".join([*plan(compiled, judged), *(ahead.section(baths) if baths else [])]))
