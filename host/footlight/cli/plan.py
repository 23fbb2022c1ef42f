"""`footlight plan`"""

import json
from pathlib import Path

import click

from footlight import sequence
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
@click.option("--json", "as_json", is_flag=True, help="Print JSON, units in the keys.")
def command(file: Path, setups: Path | None, judged: sequence.Judged, as_json: bool) -> None:
    """Check a sequence file; show its time line and its arithmetic.

    What is wrong is said in one line: file, line, step, key, value, what is allowed. What is right is shown
    as the controller will run it, with the time of each light worked out from its light setup.

    \b
        footlight new reversal-print
        footlight plan reversal-print.toml
        footlight plan reversal-print.toml --judged most --json
    """
    compiled = sequence.compile(sequence.load(file, setups))
    if as_json:
        click.echo(json.dumps(plan_as_dict(compiled, judged), indent=2))
        return
    click.echo("\n".join(plan(compiled, judged)))
