"""`footlight session`: evenings in the darkroom."""

import click

from footlight.cli.table import Rows, Table

ROWS: Rows = {
    "list": ("list", "Evenings, the newest first"),
    "show": ("show", "One evening: its runs and sheets, and the baths in use"),
    "name": ("name", "Give an evening a name, or say from when to when it was"),
}


@click.group(cls=Table, rows=ROWS, package="footlight.cli.session")
def command() -> None:
    """Evenings: runs with less than six hours between their beginnings are one, named or not.

    \b
    Example:
      footlight session list
      footlight session name "first portraits"
      footlight session show "first portraits"
    """
