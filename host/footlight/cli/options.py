"""Options that several commands share, and how their results leave the program."""

import sys
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any

import click

Decorator = Callable[[Any], Any]


def from_settings(name: str, unless: str | None = None) -> Callable[[], Any]:
    """A default for an option: what the settings file has, read only when the option is not given."""

    def look() -> Any:
        from footlight import settings

        value = settings.held(name).value
        return unless if value is None else value

    return look


port_option: Decorator = click.option(
    "--port",
    envvar="FOOTLIGHT_PORT",
    show_envvar=True,
    default=from_settings("port"),
    metavar="PORT",
    help="Port of the controller, or an address such as socket://localhost:7700. Without it: the only one.",
)

replace_option: Decorator = click.option(
    "--replace", is_flag=True, help="Write over the file if it is there."
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
    default=from_settings("notebook"),
    type=click.Path(path_type=Path),
    callback=_book_path,
    help="Notebook file. Without it: the one in your platform's folder for data.",
)


def print_json(value: object, indent: int | None = 2) -> None:
    """A result for a script; nothing of it is lost in an output that takes few characters."""
    from footlight.views.json_text import json_text

    click.echo(json_text(value, getattr(sys.stdout, "encoding", None), indent))


def say(lines: Iterable[str], notes: Iterable[str] = ()) -> None:
    """Print lines, then each note behind a mark; fields and acts in them are said as options and commands."""
    from footlight.cli.table import told

    for line in (*lines, *(f"! {note}" for note in notes)):
        click.echo(told(line))


def say_spoilt(path: Path, spoilt: Sequence[str]) -> None:
    """Of a notebook written with what had been spoilt before: each of it, and the exit code for damage."""
    if not spoilt:
        return
    from footlight.notebook.errors import NotebookError

    for line in spoilt:
        click.echo(line, err=True)
    raise NotebookError(
        f"{path}: written, but so much in it was spoilt before ({len(spoilt)}); the rest is as it was: keep "
        "every older copy, too"
    )


def terminal_width() -> int | None:
    """How wide a table may be [characters]; None where no person looks at it in a terminal."""
    if not sys.stdout.isatty():
        return None
    # Only here: it brings readers of archives with it, and a script shall not wait for them.
    import shutil

    return shutil.get_terminal_size().columns


def is_quiet() -> bool:
    """Does the printer want results and errors alone? By --quiet, the environment or the settings."""
    from footlight import settings
    from footlight.cli.table import QUIET

    ctx = click.get_current_context(silent=True)
    return bool(ctx and ctx.meta.get(QUIET)) or settings.held("quiet").value is True


def shows_progress(as_json: bool = False) -> bool:
    """Is there a person at a terminal who wants to see how far it is?"""
    return sys.stderr.isatty() and not as_json and not is_quiet()


def hint(text: str) -> None:
    """A word for a person at a terminal; nothing where output is piped or quiet is wanted."""
    if shows_progress():
        click.echo(text, err=True)
