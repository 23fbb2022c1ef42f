"""`footlight ready`: the check list before a run."""

import time
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import json_option, notebook_option, print_json, terminal_width
from footlight.errors import FootlightError

if TYPE_CHECKING:
    from footlight.baths.check import Check


@click.command("ready")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--tick", is_flag=True, help="Ask line by line: Enter ticks, a word and Enter leaves it open.")
@notebook_option
@json_option
def command(file: Path, tick: bool, book: Path, as_json: bool) -> None:
    """The check list before a run of FILE: baths, gloves, tongs, lens and height, safelight.

    It is made from the sequence and from what the notebook knows of its baths. '[!]' is known not to be in
    order; the rest is yours to tick. Nothing of it is kept. Exits with 1 where the notebook knows that
    another bath stands in a tray than the sequence was written for.

    \b
    Example:
      footlight ready reversal-print.toml
      footlight ready reversal-print.toml --tick
    """
    from footlight.actions.check_before_run import check_before_run
    from footlight.views.check_list import check_line, check_list_dict

    checks = check_before_run(file, book, int(time.time()))
    if checks.trouble:
        click.echo(f"note: {checks.trouble}", err=True)
    if as_json:
        print_json(check_list_dict(checks))
    else:
        click.echo(f"{checks.title}  {checks.name}: before the run")
        if tick:
            _tick(checks.checks)
        else:
            for check in checks.checks:
                click.echo(check_line(check, terminal_width()))
    if checks.mismatches:
        trays = ", ".join(mismatch.partition(":")[0] for mismatch in checks.mismatches)
        raise FootlightError(f"{file}: not ready; another bath than the sequence's stands in: {trays}")


def _tick(checks: "Sequence[Check]") -> None:
    """One line after the other; at the end what was left open."""
    from footlight.views.check_list import check_line

    still_open = [check for check in checks if _answer(check_line(check))]
    click.echo("Still open:" if still_open else "All ticked.")
    for check in still_open:
        click.echo(f"[ ] {check.text}")


def _answer(line: str) -> str:
    return click.prompt(line, default="", show_default=False, prompt_suffix=" ").strip()
