"""`footlight collect`: bring the controller's journal home into the notebook."""

import time
from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, port_option, print_json


@click.command("collect")
@port_option
@notebook_option
@json_option
def command(port: str | None, book: Path, as_json: bool) -> None:
    """Bring what the controller has written into the notebook.

    The controller may delete a record only after it is safely in the notebook. Doing it twice changes
    nothing. It works even when controller and computer are of different make.

    \b
    Example:
      footlight collect
    """
    from footlight.cli import ahead, homecoming
    from footlight.link import find

    now_s = int(time.time())
    channel = find.connect(port, unix_s=now_s, any_make=True)
    home = homecoming.bring_home(channel, book, now_s)
    tired = ahead.after_run(book, home.controller, home.brought.runs, now_s)
    if as_json:
        print_json(homecoming.as_dict(home) | {"mix_fresh": tired})
        return
    for line in [*homecoming.lines(home), *tired]:
        click.echo(line)
    if home.brought.sheets:
        hint(f"Look at one with 'footlight sheet {max(home.brought.sheets)}'.")
