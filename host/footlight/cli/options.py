"""Options that several commands share, and how their results leave the program."""

import json
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

Decorator = Callable[[Any], Any]

port_option: Decorator = click.option(
    "--port",
    envvar="FOOTLIGHT_PORT",
    show_envvar=True,
    metavar="PORT",
    help="Port of the controller, or an address such as socket://localhost:7700. Without it: the only one.",
)

json_option: Decorator = click.option("--json", "as_json", is_flag=True, help="Print JSON, for scripts.")


def _book_path(ctx: click.Context, param: click.Parameter, value: Path | None) -> Path:
    if value is not None:
        return value
    # Only here, so that help does not wait for it.
    from footlight.notebook.place import default_path

    return default_path()


notebook_option: Decorator = click.option(
    "--notebook",
    "book",
    envvar="FOOTLIGHT_NOTEBOOK",
    show_envvar=True,
    type=click.Path(path_type=Path),
    callback=_book_path,
    help="Notebook file. Without it: the one in your platform's folder for data.",
)


def print_json(value: object) -> None:
    """A result for a script."""
    click.echo(json.dumps(value, indent=2, ensure_ascii=False))


def hint(text: str) -> None:
    """A word for a person at a terminal; nothing where output is piped."""
    if sys.stderr.isatty():
        click.echo(text, err=True)
