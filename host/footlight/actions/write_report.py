"""Where the page of a reading goes: looked at before the reading, and over another file only if asked."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from footlight import whole_file
from footlight.cli.options import Decorator, replace_option
from footlight.errors import InputError

HTML, PNG = ".html", ".png"


def option(text: str) -> Decorator:
    """`--report` with its help, and `--replace`."""

    def add(command: Callable[..., Any]) -> Callable[..., Any]:
        return click.option("--report", type=click.Path(path_type=Path), help=text)(replace_option(command))

    return add


def check(path: Path | None, replace: bool, *endings: str, name: str = "--report") -> None:
    """Raise InputError where no page of that name can be written, or one is there already."""
    if path is None:
        return
    if path.suffix.lower() not in endings:
        raise InputError(f"{name}: '{path.name}' must end in {' or '.join(endings)}")
    if not replace:
        whole_file.refuse_existing(path, whole_file.OR_REPLACE)


def write(path: Path | None, replace: bool, make: Callable[[Path], object]) -> None:
    """Let `make` write the page, if one was asked for. Raises InputError."""
    if path is not None:
        with whole_file.whole(path, whole_file.OR_REPLACE, replacing=replace) as part:
            make(part)
