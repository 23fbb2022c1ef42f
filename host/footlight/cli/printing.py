"""Text with notes, as most commands print it; JSON and tables have one writer each (`views`)."""

from collections.abc import Iterable

import click

from footlight.cli.options import json_option as as_json
from footlight.cli.options import print_json as say_json
from footlight.views.table import columns as table

__all__ = ["as_json", "say", "say_json", "table"]


def say(lines: Iterable[str], notes: Iterable[str] = ()) -> None:
    """Print lines, then each note behind a mark."""
    for line in lines:
        click.echo(line)
    for note in notes:
        click.echo(f"! {note}")
