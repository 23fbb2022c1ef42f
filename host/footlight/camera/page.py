"""Lens cards as one self-contained HTML page, to print, cut and keep in the camera case.

Black on white, no colour: it is read in daylight, and by a red lamp it must not vanish.
"""

import math
from collections.abc import Iterable
from html import escape

from footlight.camera.lens import Card, Column, Row
from footlight.quantities import FStop

_STYLE = """
@page { margin: 12mm; }
* { box-sizing: border-box; }
body { font: 10.5pt/1.35 "DejaVu Sans", "Liberation Sans", Arial, sans-serif; color: #000; background: #fff;
       margin: 0 auto; max-width: 186mm; }
section { border: 1px dashed #777; padding: 5mm; margin: 0 0 6mm; break-inside: avoid; }
h1 { font-size: 15pt; margin: 0 0 1mm; }
p { margin: 0 0 2.5mm; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }
th, td { padding: 1.1mm 2mm; text-align: right; border-bottom: 0.3pt solid #999; white-space: nowrap; }
th:first-child, td:first-child { text-align: left; font-weight: bold; }
thead th { border-bottom: 1.2pt solid #000; vertical-align: bottom; }
tbody tr:last-child td { border-bottom: 1.2pt solid #000; }
tfoot td { font-size: 9pt; }
.unit { font-weight: normal; font-size: 8.5pt; display: block; }
.dense table { font-size: 8.5pt; }
.dense th, .dense td { padding: 1.1mm 1mm; }
.dense tfoot td { font-size: 7.5pt; }
.foot { font-size: 8.5pt; margin: 2.5mm 0 0; }
"""
# More draws than this are set smaller, so that the card keeps to its paper.
_ROOMY = 6


def page(cards: Iterable[Card]) -> str:
    """The page [HTML text] of these cards; it needs no other file."""
    body = "\n".join(_card(card) for card in cards)
    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n<title>Lens cards</title>\n'
        f"<style>{_STYLE}</style>\n</head>\n<body>\n{body}\n</body>\n</html>\n"
    )


def _card(card: Card) -> str:
    lens = card.lens
    section = "<section>" if len(card.columns) <= _ROOMY else '<section class="dense">'
    pupil = "" if lens.pupil_ratio == 1 else f", pupil ratio {lens.pupil_ratio:g}"
    return (
        f"{section}\n<h1>{escape(lens.name)}</h1>\n"
        f"<p>{lens.focal_mm:g} mm{pupil}. In each column: the f-number that counts at that draw.</p>\n"
        f"<table>\n<thead>{_head(card.columns)}</thead>\n<tbody>\n"
        + "\n".join(_row(row) for row in card.rows)
        + f"\n</tbody>\n<tfoot>{_foot(card.columns)}</tfoot>\n</table>\n"
        '<p class="foot">Meter for the mark and multiply the time by the factor, or meter for the true'
        " f-number; never both. Draw: lens board to film. Openings are seen through the front of the lens"
        f"{_measured(card)}. Marks are exact: f/11 is f/11.31.</p>\n</section>"
    )


def _measured(card: Card) -> str:
    return "; * measured, the others computed" if any(row.measured for row in card.rows) else ", computed"


def _head(columns: tuple[Column, ...]) -> str:
    draws = "".join(f"<th>{column.draw_mm:.0f}<span class=unit>mm draw</span></th>" for column in columns)
    return f"<tr><th>mark</th><th>opening<span class=unit>mm</span></th>{draws}</tr>"


def _row(row: Row) -> str:
    mark = escape(str(row.stop).removesuffix(" literal"))
    opening = f"{row.diameter_mm:.1f}{'*' if row.measured else ''}"
    cells = "".join(f"<td>{f_number(stop)}</td>" for stop in row.true)
    return f"<tr><td>{mark}</td><td>{opening}</td>{cells}</tr>"


def _foot(columns: tuple[Column, ...]) -> str:
    return "".join(
        f"<tr><td colspan=2>{heading}</td>{''.join(f'<td>{cell}</td>' for cell in cells)}</tr>"
        for heading, cells in foot_rows(columns)
    )


def foot_rows(columns: tuple[Column, ...]) -> list[tuple[str, list[str]]]:
    """What holds for a whole column: factor on the time, stops, scale, and distance to the subject."""
    return [
        ("time ×", [f"{column.extension.factor:.2f}" for column in columns]),
        (
            "stops",
            [f"{column.extension.stops:+.2f}" if column.extension.stops else "0" for column in columns],
        ),
        ("scale", [scale(column.extension.magnification) for column in columns]),
        ("lens to subject, m", [_metres(column.distance_mm) for column in columns]),
    ]


def f_number(stop: FStop) -> str:
    """Three figures are all that a stop is known to: `f/8.00`, `f/12.4`, `f/113`."""
    return f"f/{stop.exact_value:#.3g}".rstrip(".")


def scale(magnification: float) -> str:
    """`1 : 4` on the film, `2 : 1`, `infinity`."""
    if magnification < 0.001:
        return "infinity"
    return f"1 : {1 / magnification:.3g}" if magnification <= 1 else f"{magnification:.3g} : 1"


def _metres(distance_mm: float) -> str:
    return "far" if math.isinf(distance_mm) else f"{distance_mm / 1000:.2f}"
