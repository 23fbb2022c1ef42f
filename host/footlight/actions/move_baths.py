"""What `bottled`, `poured` and `emptied` do: one finding for each bath named."""

from pathlib import Path

import click

from footlight.cli.bath import options
from footlight.cli.options import print_json
from footlight.errors import InputError
from footlight.notebook.book import notebook
from footlight.notebook.errors import NotebookError
from footlight.notebook.stock import baths
from footlight.notebook.stock.baths import Finding
from footlight.views.times import date_text


def leave(kind: str, names: tuple[str, ...], every: bool, moment: str, book: Path, as_json: bool) -> None:
    """Write the finding for the baths named, or for all in use."""
    if bool(names) == every:
        raise InputError("NAME: name the baths, or write --all, not both")
    present_s = options.now_s()
    at_s = options.said_moment(moment, present_s)
    with notebook(book, writing=True, making=False) as connection:
        chosen = [baths.current(connection, name) for name in names] if names else _all(connection, kind)
        baths.note(connection, [(bath, Finding(kind, 1.0, at_unix_s=at_s)) for bath in chosen], present_s)
    if as_json:
        print_json([{"name": bath.name, "id": bath.id, "kind": kind, "at_unix_s": at_s} for bath in chosen])
        return
    for bath in chosen:
        click.echo(f"{bath.name}: {kind} {date_text(at_s)}")
        if (bath.kind, kind) == ("bleach", "bottled"):
            click.echo("! Under a cap that vents, upright: gas builds up in a sealed bottle until it bursts.")


def _all(connection, kind: str) -> list[baths.Bath]:
    in_use = baths.in_use(connection)
    if kind == "emptied":
        chosen = in_use
    else:
        # What is in a bottle already cannot be bottled.
        chosen = [bath for bath in in_use if bath.is_bottled == (kind == "poured")]
    if not chosen:
        raise NotebookError(f"--all: no bath could be {kind}; 'footlight bath list' shows what is in use")
    return chosen
