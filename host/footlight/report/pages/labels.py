"""Labels for trays and the bottles that fill them: two across and four down, to be cut along the dashes."""

from collections.abc import Iterable
from dataclasses import dataclass

from footlight.report.pages import fit
from footlight.report.pages.frame import page, text

NO_LABEL_OF_LAW = (
    "A reminder for this room, no label by law: no supplier, no pictograms. The bottle's own label and data"
    " sheet come first."
)
_WIDE_MM, _HIGH_MM, _PAD_MM = 93.0, 64.0, 3.0
_PLACE_MM, _NAME_MM, _SMALL_MM, _LEADING = 17.0, 6.0, 3.3, 1.2
# Room for a pen; the last words, two lines of small type.
_PEN_MM, _LAST_MM = 7.0, 6.4
_SMALLEST = 0.5


@dataclass(frozen=True)
class Label:
    """A tray. strength: what is in the bath, in words. dated: when it was mixed, '' leaves a blank for the
    pen. life: how long it lasts, in words. signal: signal word. cautions: a line each. is_water: no date."""

    place: str
    tongs: str
    name: str
    bath: str
    strength: str
    dated: str
    life: str
    signal: str
    cautions: tuple[str, ...]
    is_water: bool = False


def printed(labels: Iterable[Label], title: str, paper: str = "any") -> str:
    """The labels as a page [HTML text]; as many sheets of paper as they need."""
    body = "\n".join(_label(label) for label in labels)
    return page(f"{title}: labels", _STYLE, f"<main>{body}</main>", paper)


def _label(label: Label) -> str:
    scale = _scale(label)
    tongs = f"<p class=tongs>tongs <b>{text(label.tongs)}</b></p>" if label.tongs else ""
    signal = f"<b class=signal>{text(label.signal)}</b>" if label.signal else ""
    lines = "".join(f"<p>{text(line)}</p>" for line in _lines(label))
    last = "" if label.is_water else f"<p class=last>{text(NO_LABEL_OF_LAW)}</p>"
    return (
        f'<section style="font-size: {_SMALL_MM * scale:.2f}mm">'
        f"<div class=head><p class=place>{text(label.place)}</p>"
        f"<div><p class=name>{text(label.name)}</p>{tongs}</div>{signal}</div>"
        f"{_pen(label)}{lines}{last}</section>"
    )


def _lines(label: Label) -> list[str]:
    found = [label.bath if label.bath != label.name else "", label.strength, *label.cautions]
    return [line for line in found if line]


def _pen(label: Label) -> str:
    """When it was mixed and how long it lasts; a line to write on where the date is not known."""
    if label.is_water:
        return f"<p class=pen>{text(label.life)}</p>" if label.life else ""
    dated = f"mixed {text(label.dated)}" if label.dated else "mixed <i></i> at <i></i>"
    return f"<p class=pen>{dated}<span>{text(label.life)}</span></p>"


def _scale(label: Label) -> float:
    """How much smaller than at its best the small type is set, so that all of it is on the label."""
    room_mm = _HIGH_MM - 2 * _PAD_MM - _PLACE_MM - _PEN_MM - _LAST_MM
    scale = 1.0
    while scale > _SMALLEST and _small_mm(label, scale) > room_mm:
        scale -= 0.02
    return scale


def _small_mm(label: Label, scale: float) -> float:
    size_mm = _SMALL_MM * scale
    count = sum(fit.lines(line, size_mm, _WIDE_MM - 2 * _PAD_MM - 1) for line in _lines(label))
    return count * size_mm * _LEADING + len(_lines(label)) * 0.6


_STYLE = f"""
main {{ display: grid; grid-template-columns: {_WIDE_MM:g}mm {_WIDE_MM:g}mm; column-gap: 2mm; }}
section {{ width: {_WIDE_MM:g}mm; height: {_HIGH_MM:g}mm; padding: {_PAD_MM:g}mm; overflow: hidden;
           border: 0.2mm dashed #000; break-inside: avoid; line-height: {_LEADING:g}; }}
section > p {{ margin-bottom: 0.6mm; }}
.pen {{ font-size: 3.8mm; font-weight: bold; height: {_PEN_MM - 0.6:g}mm; display: flex; gap: 1.5mm;
        align-items: end; white-space: nowrap; }}
.pen i {{ flex: 1; border-bottom: 0.3mm solid #000; }}
.pen span {{ margin-left: auto; }}
.last {{ font-size: 2.5mm; line-height: 3mm; }}
.head {{ display: flex; align-items: center; gap: 3mm; height: {_PLACE_MM:g}mm; overflow: hidden; }}
.head > div {{ flex: 1; }}
.place {{ font-size: {_PLACE_MM:g}mm; line-height: 1; font-weight: bold; }}
.name {{ font-size: {_NAME_MM:g}mm; line-height: 1; font-weight: bold; }}
.tongs {{ font-size: 4.4mm; }}
.signal {{ font-size: 5mm; border: 0.7mm solid #000; padding: 0 1mm; text-transform: uppercase; }}
"""
