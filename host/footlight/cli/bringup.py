"""`footlight bringup`: a new controller tried part by part, with the person who built it."""

import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import json_option, port_option, print_json

if TYPE_CHECKING:
    from footlight.actions.bring_up import BringUp

_PARTS = ("display", "sounds", "white light", "pedal", "lamp")


@click.command("bringup")
@port_option
@click.option(
    "--part", "chosen", multiple=True, type=click.Choice(_PARTS), help="Only this part; may be repeated."
)
@click.option(
    "--pedals", type=click.IntRange(1, 2), default=1, show_default=True, help="How many are plugged in."
)
@click.option(
    "--record",
    "path",
    type=click.Path(path_type=Path, dir_okay=False),
    help="File that the outcome is added to. Without it: bring-up.jsonl beside the notebook.",
)
@json_option
def command(port: str | None, chosen: tuple[str, ...], pedals: int, path: Path | None, as_json: bool) -> None:
    """Go through the parts of a controller one by one: you look, listen and press, and answer.

    Display, sounds, white-light contact and pedal are worked from here; the lamp only by the pedal, through
    the controller's own set-up light, and with no lamp plugged in yet. The measurements by meter are in
    hardware/bring-up.md. Each outcome is kept; exit code 1 means that something did not do what it should.

    \b
    Example:
      footlight bringup
      footlight bringup --part pedal --pedals 2
    """
    from footlight.actions.bring_up import bring_up, record
    from footlight.notebook.place import default_path
    from footlight.views.bring_up import bring_up_dict, bring_up_lines

    result = bring_up(port, _Person(), int(time.time()), chosen=chosen or _PARTS, pedal_count=pedals)
    path = path or default_path().with_name("bring-up.jsonl")
    record(result, path)
    if as_json:
        print_json(bring_up_dict(result))
    else:
        for line in [*bring_up_lines(result), f"Kept in {path}.", *_next(result)]:
            click.echo(line)
    if result.failed:
        sys.exit(1)


class _Person:
    """At the terminal. What is said goes to standard error, so that --json stays clean."""

    def say(self, text: str) -> None:
        click.echo(text, err=True)

    def ready(self, text: str) -> None:
        click.prompt(f"{text} Enter", default="", show_default=False, err=True)

    def confirm(self, question: str) -> bool | None:
        answers = click.Choice(["y", "n", "skip"])
        answer = click.prompt(question, type=answers, err=True)
        return {"y": True, "n": False}.get(answer)


def _next(result: "BringUp") -> list[str]:
    if result.failed:
        return ["Mend what is BAD (hardware/bring-up.md), then try that part again with --part."]
    if all(check.passed for check in result.checks):
        return ["Next: the measurements of hardware/bring-up.md, parts 4 to 7, before a lamp is plugged in."]
    return []
