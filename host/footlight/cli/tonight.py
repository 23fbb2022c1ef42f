"""`footlight tonight`, and `footlight` alone: what stands, what waits, what comes next."""

import time
from pathlib import Path

import click

from footlight.cli.options import (
    hint,
    json_option,
    notebook_option,
    port_option,
    print_json,
    say,
    terminal_width,
)


@click.command("tonight")
@port_option
@notebook_option
@json_option
def command(port: str | None, book: Path, as_json: bool) -> None:
    """The controller and what it holds, baths and what is left in them, sheets that wait, the next act.

    `footlight` alone shows the same.

    \b
    Example:
      footlight tonight
    """
    from footlight.actions.see_tonight import see_tonight
    from footlight.cli.table import told
    from footlight.views import tonight as view

    tonight = see_tonight(book, int(time.time()), port)
    if as_json:
        print_json(view.as_dict(tonight) | {"next": told(tonight.next_act)})
        return
    say(view.lines(tonight, terminal_width()))
    hint("'footlight --help' lists every command.")
