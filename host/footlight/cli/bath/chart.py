"""`footlight bath chart`"""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.bath import options
from footlight.cli.options import json_option, notebook_option, print_json, replace_option

if TYPE_CHECKING:
    from footlight.baths.charted import Point
    from footlight.baths.condition import Condition


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
    from footlight.baths.charted import points
    from footlight.baths.condition import shelf
    from footlight.notebook.book import notebook
    from footlight.notebook.errors import NotebookError

    if picture is not None:
        from footlight.report.sheet_of_graphs import check_name

        check_name(picture, replace)
    with notebook(book, writing=False) as connection:
        found = shelf(connection, options.now_s(), [name])
        if not found.conditions:
            raise NotebookError(
                f"bath '{name}': none of that name in the notebook; see 'footlight bath list'"
            )
        drawn = points(connection, found, name)
    if picture is not None:
        _draw(name, drawn, found.conditions[-1], picture)
    if as_json:
        where = str(picture) if picture else None
        print_json({"name": name, "picture": where, "points": [vars(one) for one in drawn]})
        return
    click.echo(f"{picture}: {len(drawn)} figures" if picture else "\n".join(_listed(drawn)))


def _draw(name: str, drawn: "list[Point]", last: "Condition", picture: Path) -> None:
    from footlight.report.chart_bath import Ends, draw

    limits = last.known.limits if last.known else None
    ends = Ends(limits.sheets_per_l, limits.tray_h) if limits else Ends(None, None)
    draw(f"{name}: what its prints showed", drawn, ends, picture)


def _listed(drawn: "list[Point]") -> list[str]:
    from footlight.views.table import columns

    if not drawn:
        return ["Nothing known yet: read a print with 'footlight read print', or write a clearing time."]
    units = {"time": "s"}
    rows = [
        [
            "the last" if point.baths_before == 0 else f"{point.baths_before} before",
            f"{point.sheet}" if point.sheet is not None else "–",
            point.what,
            f"{point.value:.3g} {units.get(point.what, 'D')}",
            f"{point.per_l:.3g}",
            f"{point.age_h:.1f} h",
        ]
        for point in drawn
    ]
    return columns(["bath", "sheet", "what", "value", "8x10 a litre", "in tray"], rows)
