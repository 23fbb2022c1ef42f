"""The report of one print: its picture, what it is made of, planned against given, and what was written."""

from collections.abc import Sequence
from dataclasses import dataclass

from footlight.report.pages.frame import page, picture, text

Pairs = Sequence[tuple[str, str]]


@dataclass(frozen=True)
class Picture:
    """A picture and its kind ('image/jpeg')."""

    data: bytes
    media: str


@dataclass(frozen=True)
class Table:
    """Rows under a heading; the first row is the head of the columns. notes: lines below it."""

    title: str
    rows: Sequence[Sequence[str]]
    notes: Sequence[str] = ()


@dataclass(frozen=True)
class Curve:
    """A strip's curve. drawing: SVG that is markup already. words: what it says, a line each."""

    title: str
    drawing: str
    words: Sequence[str]


@dataclass(frozen=True)
class Report:
    """A print. facts: heading -> what is known, each as (what, value). time_line: its drawing, or why there
    is none."""

    number: int
    title: str
    facts: dict[str, Pairs]
    tables: Sequence[Table]
    shown: Picture | None = None
    time_line: Picture | str = ""
    curves: Sequence[Curve] = ()


def printed(report: Report, paper: str = "any") -> str:
    """The report as a page [HTML text]."""
    shown = ""
    if report.shown:
        image = picture(report.shown.data, report.shown.media, f"print {report.number}")
        shown = f"<figure class=print>{image}</figure>"
    facts = "".join(_facts(title, pairs) for title, pairs in report.facts.items() if pairs)
    body = (
        f"<header><h1>Print {report.number}</h1><p>{text(report.title)}</p></header>"
        f"<div class=top>{shown}<div class=facts>{facts}</div></div>"
        + "".join(_table(table) for table in report.tables)
        + _time_line(report)
        + "".join(_curve(curve) for curve in report.curves)
    )
    return page(f"Print {report.number}", _STYLE, body, paper)


def _facts(title: str, pairs: Pairs) -> str:
    rows = "".join(f"<tr><th>{text(what)}</th><td>{text(value)}</td></tr>" for what, value in pairs)
    return f"<section><h2>{text(title)}</h2><table class=pairs>{rows}</table></section>"


def _table(table: Table) -> str:
    head, *rows = table.rows
    headings = "".join(f"<th>{text(cell)}</th>" for cell in head)
    cells = "".join(f"<tr>{''.join(f'<td>{text(cell)}</td>' for cell in row)}</tr>" for row in rows)
    notes = "".join(f"<p class=note>{text(note)}</p>" for note in table.notes)
    return (
        f"<section><h2>{text(table.title)}</h2><table class=rows><thead><tr>{headings}</tr></thead>"
        f"<tbody>{cells}</tbody></table>{notes}</section>"
    )


def _time_line(report: Report) -> str:
    if isinstance(report.time_line, str):
        return f"<section><p class=note>{text(report.time_line)}</p></section>" if report.time_line else ""
    image = picture(report.time_line.data, report.time_line.media, "planned above, given below")
    return f"<section class=whole><h2>Planned against given</h2>{image}</section>"


def _curve(curve: Curve) -> str:
    words = "".join(f"<p>{text(line)}</p>" for line in curve.words)
    head = f"<h2>{text(curve.title)}</h2>"
    return f"<section class='whole curve'>{head}{curve.drawing}<div>{words}</div></section>"


_STYLE = """
body { font-size: 3.2mm; line-height: 1.3; }
header { border-bottom: 0.8mm solid #000; margin-bottom: 2mm;
         display: flex; align-items: baseline; gap: 5mm; }
h1 { font-size: 9mm; line-height: 1.2; }
header p { font-size: 4.4mm; }
h2 { font-size: 3.6mm; margin: 2mm 0 0.5mm; }
.top { display: flex; gap: 5mm; }
.print { margin: 2mm 0 0; max-width: 84mm; }
.print img { max-width: 84mm; max-height: 100mm; border: 0.2mm solid #000; display: block; }
.facts { flex: 1; }
th { text-align: left; font-weight: normal; vertical-align: top; }
.pairs th { width: 30mm; padding-right: 2mm; }
td { vertical-align: top; }
.rows th { border-bottom: 0.4mm solid #000; font-weight: bold; }
.rows td { border-bottom: 0.1mm solid #000; }
.rows td, .rows th { padding: 0.3mm 2mm 0.3mm 0; }
.rows td:nth-child(1) { text-align: right; padding-right: 3mm; width: 11mm; }
.rows td:nth-child(n+3):nth-child(-n+5) { text-align: right; white-space: nowrap; }
.rows th:nth-child(n+3):nth-child(-n+5) { text-align: right; }
.note { font-size: 2.9mm; }
.whole { break-inside: avoid; }
.whole img { width: 100%; max-height: 110mm; object-fit: contain; }
.curve svg { width: 95mm; float: left; margin-right: 4mm; }
.curve::after { content: ""; display: block; clear: both; }
"""
