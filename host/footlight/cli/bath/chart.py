"""`footlight bath chart`"""

from pathlib import Path

import click

from footlight.cli.bath import options
from footlight.cli.options import json_option, notebook_option, print_json, replace_option, terminal_width


@click.command
@click.argument("name")
@click.argument("picture", type=click.Path(path_type=Path, dir_okay=False), required=False)
@replace_option
@notebook_option
@json_option
def command(name: str, picture: Path | None, replace: bool, book: Path, as_json: bool) -> None:
    """Black, veil and mottle of each print that was read, and clearing times, against use and age of a bath.

    All baths NAME are drawn, the last one full. PICTURE ends in .svg, .png or .pdf, and needs the extra
    'pictures'; without it the figures are listed.

    \b
        footlight bath chart bleach
        footlight bath chart bleach bleach.svg
    """
    from footlight.actions.chart_bath import chart_bath
    from footlight.views import baths

    charted = chart_bath(book, name, options.now_s(), picture, replace)
    if as_json:
        where = str(picture) if picture else None
        print_json({"name": name, "picture": where, "points": [vars(point) for point in charted]})
    elif picture:
        click.echo(f"{picture}: {len(charted)} figures")
    elif charted:
        click.echo("\n".join(baths.points(charted, terminal_width())))
    else:
        click.echo("Nothing known yet: read a print with 'footlight read print', or write a clearing time.")
