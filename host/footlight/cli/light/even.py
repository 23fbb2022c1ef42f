"""`footlight light even`"""

import click

from footlight import quantities as q
from footlight.cli.options import json_option, print_json, say
from footlight.light.evenness import Evenness, Source, grid_stops, height_for_loss_mm, of_sheet
from footlight.views.table import columns


@click.command
@click.argument("sheet")
@click.argument("height")
@click.option(
    "--source",
    metavar="KIND",
    default="lens",
    show_default=True,
    help="'lens', 'bare' (a lamp far off), or the diameter of a near lamp: '60 mm'.",
)
@click.option(
    "--within", metavar="STOPS", help="Also say the least height whose corners miss no more than this."
)
@click.option(
    "--picture",
    type=click.Path(),
    metavar="FILE",
    help="Draw the sheet with contours (PNG, SVG).",
)
@json_option
def command(
    sheet: str, height: str, source: str, within: str | None, picture: str | None, as_json: bool
) -> None:
    """How evenly the light falls on a SHEET centred under the lens, at a HEIGHT.

    \b
        footlight light even 8x10 "500 mm"
        footlight light even 8x10 "500 mm" --within "0.1 stop"
        footlight light even 8x10 "500 mm" --picture even.png
    """
    paper, lit_by = q.parse_sheet(sheet, "SHEET"), _source(source)
    height_mm = q.parse_length_mm(height, "HEIGHT")
    found = of_sheet(paper, height_mm, lit_by)
    wanted = q.parse_stops(within, "--within") if within else None
    least_mm = height_for_loss_mm(paper, wanted, lit_by) if wanted is not None else None
    if picture:
        from pathlib import Path

        from footlight.light.contours import draw

        draw(Path(picture), paper, height_mm, lit_by)
    if as_json:
        print_json(_as_dict(found, least_mm))
        return
    say(_lines(found))
    if wanted is not None and least_mm is not None:
        click.echo(f"corners within {wanted:g} stop: from {least_mm:.0f} mm up")
    if picture:
        click.echo(f"picture: {picture}")


def _source(text: str) -> Source:
    if text == "lens":
        return Source("lens")
    if text == "bare":
        return Source("bare")
    return Source("disc", q.parse_length_mm(text, "--source"))


def _lines(found: Evenness) -> list[str]:
    grid = grid_stops(found.sheet, found.height_mm, found.source, columns=5, rows=5)
    rows = [[" ", *(f"{-loss if loss > 0.0005 else 0:.2f}" for loss in row)] for row in grid]
    return [
        found.summary,
        f"edges: -{found.short_edge_stops:.2f} stop in the middle of the short side,"
        f" -{found.long_edge_stops:.2f} of the long side",
        "the sheet from edge to edge, in stops against its middle:",
        *columns([" ", *[""] * 5], rows)[1:],
    ]


def _as_dict(found: Evenness, least_mm: float | None) -> dict[str, object]:
    return {
        "sheet_mm": [found.sheet.width_mm, found.sheet.height_mm],
        "height_mm": found.height_mm,
        "law": found.source.law,
        "corner_stops": round(found.corner_stops, 4),
        "short_edge_stops": round(found.short_edge_stops, 4),
        "long_edge_stops": round(found.long_edge_stops, 4),
        "least_height_mm": round(least_mm, 1) if least_mm is not None else None,
    }
