"""`footlight sheet`: one sheet, planned against given."""

from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json, replace_option, terminal_width
from footlight.cli.types import FROM_1


@click.command("sheet")
@click.argument("number", type=FROM_1)
@click.option("--controller", help="Which controller's, if several have a sheet of that number.")
@click.option("--arithmetic", is_flag=True, help="Also how the planned times came about.")
@click.option("--as-sent", is_flag=True, help="Also sequence and light setups as they were when sent.")
@click.option(
    "--picture",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Also draw the time line of its last run into this file (.svg, .png, .pdf).",
)
@replace_option
@notebook_option
@json_option
def command(
    number: int,
    controller: str | None,
    arithmetic: bool,
    as_sent: bool,
    picture: Path | None,
    replace: bool,
    book: Path,
    as_json: bool,
) -> None:
    """Show the whole life of sheet NUMBER, from its paper to what was written of it, planned against given.

    For a light: 'planned' is light on the paper, 'given' what it got, in how many parts, and for how long the
    lamp was switched on. For a bath: planned and real time, with its lift.

    \b
    Example:
      footlight sheet 41
      footlight sheet 41 --picture sheet-41.svg
    """
    from footlight.actions.show_sheet import show_sheet
    from footlight.views import sheet

    shown = show_sheet(book, number, controller, picture, replace)
    if as_json:
        print_json(sheet.as_dict(shown))
        return
    for line in sheet.lines(shown, arithmetic, as_sent, terminal_width()):
        click.echo(line)
