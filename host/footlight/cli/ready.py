"""`footlight ready`: the check list before a run."""

import time
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import json_option, notebook_option, print_json

if TYPE_CHECKING:
    from footlight.baths.check import Check
    from footlight.baths.checks import Known
    from footlight.sequence import Compiled


@click.command("ready")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--tick", is_flag=True, help="Ask line by line: Enter ticks, a word and Enter leaves it open.")
@notebook_option
@json_option
def command(file: Path, tick: bool, book: Path, as_json: bool) -> None:
    """The check list before a run of FILE: baths, gloves, tongs, lens and height, safelight.

    It is made from the sequence and from what the notebook knows of its baths. '[!]' is known not to be in
    order; the rest is yours to tick. Nothing of it is kept.

    \b
    Example:
      footlight ready reversal-print.toml
      footlight ready reversal-print.toml --tick
    """
    from footlight import sequence
    from footlight.baths.checks import checks

    now_s = int(time.time())
    compiled = sequence.compile(sequence.load(file))
    found = checks(compiled, _known(compiled, book, now_s), now_s)
    wrong = sum(one.wrong for one in found)
    if as_json:
        head = {"title": compiled.sequence.title, "name": compiled.sequence.name, "wrong": wrong}
        print_json(head | {"checks": [vars(one) for one in found]})
        return
    click.echo(f"{compiled.sequence.title}  {compiled.sequence.name}: before the run")
    if tick:
        _tick(found)
        return
    for one in found:
        click.echo(f"{'[!]' if one.wrong else '[ ]'} {one.text}")


def _known(compiled: "Compiled", book: Path, now_s: int) -> "Known":
    from footlight.baths import flashed
    from footlight.baths.checks import Known
    from footlight.cli.ahead import baths_ahead

    if not book.is_file():
        return Known()
    from footlight.notebook.book import notebook
    from footlight.notebook.stock import fog_tests

    with notebook(book, writing=False) as connection:
        waiting, tests = flashed.waiting(connection, now_s), fog_tests.kept(connection)
    return Known(baths_ahead(compiled, book, now_s), waiting, tests)


def _tick(found: "list[Check]") -> None:
    """One line after the other; at the end what was left open."""
    open_yet = []
    for one in found:
        answer = click.prompt(
            f"{'[!]' if one.wrong else '[ ]'} {one.text}", default="", show_default=False, prompt_suffix=" "
        )
        if answer.strip():
            open_yet.append(one)
    if not open_yet:
        click.echo("All ticked.")
        return
    click.echo("Still open:")
    for one in open_yet:
        click.echo(f"[ ] {one.text}")
