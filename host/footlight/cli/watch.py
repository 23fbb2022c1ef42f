"""`footlight watch`: a run as it goes on, for teaching and testing."""

import sys
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, port_option

_WARNING = (
    "A screen can fog paper, also a dim red one: its backlight is white behind the pixels.\n"
    "Keep it out of the room where paper lies open, or behind a red filter that you have tested with paper.\n"
    "In the darkroom the controller's own display and sounds are enough."
)


@click.command("watch")
@port_option
@notebook_option
@click.option("--bright", is_flag=True, help="The terminal's own colours instead of dim red on black.")
@click.option("--once", is_flag=True, help="Show the present moment and leave.")
@click.option("--yes", is_flag=True, help="No question about screens in darkrooms.")
@json_option
def command(port: str | None, book: Path, bright: bool, once: bool, yes: bool, as_json: bool) -> None:
    """Follow a run on the controller: step, time, light. It changes nothing there; Ctrl-C leaves it.

    With --json: one line for each change.

    \b
    Example:
      footlight watch
      footlight watch --once --json
    """
    from footlight.cli import watching

    click.echo(_WARNING, err=True)
    if not (yes or once or as_json) and sys.stdin.isatty():
        click.confirm("Go on?", abort=True, err=True)
    source = watching.Source(port, watching.names_from(book))
    if as_json:
        watching.print_changes(source, once)
    elif once or not sys.stdout.isatty():
        watching.print_lines(source, once)
    else:
        from footlight.cli import watch_picture

        watch_picture.show(source, dim=not bright)
