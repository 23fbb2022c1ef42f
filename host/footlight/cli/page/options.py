"""What the commands of `footlight page` share: where a page goes, and for which paper."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from footlight import whole_file
from footlight.report.pages.frame import PAPERS

Decorator = Callable[[Any], Any]

out_option: Decorator = click.option(
    "--out", type=click.Path(path_type=Path, dir_okay=False), help="Write the page into this file."
)
paper_option: Decorator = click.option(
    "--paper",
    type=click.Choice(PAPERS),
    default="any",
    show_default=True,
    help="What it is printed on; 'any' fits A4 and Letter.",
)


def write(path: Path, html: str, replacing: bool) -> None:
    """Write a page. Raises InputError where there is such a file already, or none can be written."""
    whole_file.write(path, html, "name another with --out, or add --replace", replacing=replacing)
