"""`footlight lens list`"""

from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.views.table import columns


@click.command("list")
@notebook_option
@json_option
def command(book: Path, as_json: bool) -> None:
    """All lenses, as last written.

    \b
    Example:
      footlight lens list
    """
    from footlight.notebook.book import notebook
    from footlight.notebook.stock import lenses

    with notebook(book, writing=False) as connection:
        listed = lenses.every(connection)
    if as_json:
        print_json([asdict(lens) for lens in listed])
        return
    rows = [
        [lens.name, f"{lens.focal_mm:g} mm", lens.widest, lens.true_stops or "–", lens.note]
        for lens in listed
    ]
    for line in columns(["lens", "focal", "widest", "measured stops", "note"], rows):
        click.echo(line)
    if not rows:
        hint("No lens yet: 'footlight lens add' writes one down.")
