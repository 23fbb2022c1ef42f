"""`footlight watch`: a run as it goes on, for teaching and testing."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import json_option, notebook_option, port_option, print_json

if TYPE_CHECKING:
    from footlight.actions.watch_run import Source

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
    from footlight.actions.watch_run import watch_run

    click.echo(_WARNING, err=True)
    if not (yes or once or as_json) and sys.stdin.isatty():
        click.confirm("Go on?", abort=True, err=True)
    source = watch_run(book, port)
    if as_json or once or not sys.stdout.isatty():
        _tell(source, once, as_json)
    else:
        _draw(source, dim=not bright)


def _tell(source: "Source", once: bool, as_json: bool) -> None:
    """A line for each change."""
    from footlight.actions.watch_run import changes
    from footlight.views.run_status import status_dict, status_lines

    for moment in changes(source, once):
        if as_json:
            print_json(status_dict(moment), indent=None)
        else:
            click.echo(moment if isinstance(moment, str) else "; ".join(status_lines(moment)))


def _draw(source: "Source", dim: bool) -> None:
    """A picture that follows the run until Ctrl-C."""
    from rich.console import Console
    from rich.live import Live

    from footlight.cli.terminal import free
    from footlight.views.run_picture import picture

    with free(sys.stdout), Live(console=Console(), screen=True, auto_refresh=False) as live:
        try:
            for moment in source.moments():
                live.update(picture(moment, dim), refresh=True)
        except KeyboardInterrupt:
            return
