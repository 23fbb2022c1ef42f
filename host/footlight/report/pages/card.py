"""The wall card of a sequence: one page, black on white, its times read from two metres under a red lamp.

At 2 m an eye of common sharpness resolves letters of 2.9 mm (5 minutes of arc; the 20/20 line of an eye
chart, from memory). Under a dim red lamp three times that is taken, no source: digits of 9 mm.
"""

from dataclasses import dataclass

from footlight.report.pages import fit
from footlight.report.pages.frame import WIDTH_MM, height_mm, page, text

DIGITS_MM = 9.0
# Height of a '1' in parts of the type size, for Arial and its metric twins.
DIGIT = 0.687
FINISH = ("drain by a corner", "squeegee the back, then the front", "dry face up or hung", "sleeve")

_TIME_MM = 13.2  # type size; digits of 9.1 mm
_TIME_LEADING = 0.74  # digits hang nowhere below the line
_UNIT = 0.5
_NAME_MM, _DETAIL_MM, _LEADING = 6.4, 3.7, 1.15
_PLACE_COLUMN_MM, _TIME_COLUMN_MM = 27.0, 42.0
_TEXT_COLUMN_MM = WIDTH_MM - _PLACE_COLUMN_MM - _TIME_COLUMN_MM
_ROW_GAP_MM, _RULE_MM = 1.2, 0.3
_HEAD_MM, _FOOT_LINE_MM, _FOOT_TYPE_MM = 16.2, 4.6, 3.7
# Words shrink before times do, and both no further than this.
_SMALLEST_WORDS, _SMALLEST = 0.72, 0.25


@dataclass(frozen=True)
class Line:
    """One step on the card. is_light, is_white: a light; white light is permitted from here on."""

    place: str
    tongs: str
    time: str
    name: str
    detail: str
    is_light: bool = False
    is_white: bool = False


@dataclass(frozen=True)
class Card:
    """A wall card. about: a line under the name. hazards: short lines. finish: what is done by no clock."""

    name: str
    title: str
    about: str
    lines: tuple[Line, ...]
    hazards: tuple[str, ...]
    finish: tuple[str, ...]


@dataclass(frozen=True)
class Printed:
    """The page, and how tall its time digits are [mm]."""

    html: str
    digits_mm: float


def printed(card: Card, paper: str = "any") -> Printed:
    """The card as a page that holds it whole: type shrinks where a sequence has many steps."""
    room_mm = height_mm(paper) - _HEAD_MM - _foot_height_mm(card)
    type_ = _Type(1.0, 1.0)
    while type_.times > _SMALLEST and type_.rows_mm(card) > room_mm:
        type_ = type_.smaller()
    spare_mm = max(0.0, min(4.0, (room_mm - type_.rows_mm(card)) / len(card.lines)))
    rows = "\n".join(_row(line) for line in card.lines)
    body = f"{_head(card)}\n<table class=steps>{rows}</table>\n{_foot(card)}"
    html = page(f"{card.name}: wall card", _style(type_, spare_mm), body, paper)
    return Printed(html, _TIME_MM * DIGIT * type_.times)


@dataclass(frozen=True)
class _Type:
    """How much smaller than at their best times and words are set."""

    times: float
    words: float

    def smaller(self) -> "_Type":
        if self.words > _SMALLEST_WORDS:
            return _Type(self.times, self.words - 0.01)
        factor = (self.times - 0.01) / self.times
        return _Type(self.times * factor, self.words * factor)

    @property
    def gap_mm(self) -> float:
        return _ROW_GAP_MM * self.times

    def rows_mm(self, card: Card) -> float:
        return sum(self._row_mm(line) for line in card.lines)

    def _row_mm(self, line: Line) -> float:
        name, detail, time = _NAME_MM * self.words, _DETAIL_MM * self.words, _TIME_MM * self.times
        permit = "  white light" if line.is_white else ""
        words_mm = fit.lines(line.name + permit, name, _TEXT_COLUMN_MM, bold=True) * name
        words_mm += fit.lines(line.detail, detail, _TEXT_COLUMN_MM) * detail
        time_mm = _time_lines(line.time, time) * time * _TIME_LEADING
        return max(words_mm * _LEADING, time_mm) + self.gap_mm + _RULE_MM


def _time_lines(time: str, size_mm: float) -> int:
    """A time never breaks; only one that is wider than its column takes a second line."""
    number, _, unit = time.partition(" ")
    wide_mm = fit.width_mm(number, size_mm, bold=True)
    wide_mm += fit.width_mm(f" {unit}", size_mm * _UNIT, bold=True) if unit else 0
    return 1 + int(wide_mm > _TIME_COLUMN_MM)


def _head(card: Card) -> str:
    return (
        f"<header><h1>{text(card.name)} <span class=title>{text(card.title)}</span></h1>"
        f"<p>{text(card.about)}</p></header>"
    )


def _row(line: Line) -> str:
    kinds = [word for word, holds in (("light", line.is_light), ("white", line.is_white)) if holds]
    tongs = f"<span class=tongs>{text(line.tongs)}</span>" if line.tongs else ""
    place = f"<span class=place>{text(line.place)}</span>{tongs}" if line.place or line.tongs else ""
    white = "<span class=permit>white light</span>" if line.is_white else ""
    detail = f"<div class=detail>{text(line.detail)}</div>" if line.detail else ""
    return (
        f"<tr class='{' '.join(kinds)}'><td class=where>{place}</td>"
        f"<td class=time>{_time(line.time)}</td>"
        f"<td class=what><div class=name>{text(line.name)}{white}</div>{detail}</td></tr>"
    )


def _time(time: str) -> str:
    number, _, unit = time.partition(" ")
    return f"{text(number)}<small> {text(unit)}</small>" if unit else text(number)


def _foot(card: Card) -> str:
    hazards = "".join(f"<p>{text(line)}</p>" for line in card.hazards)
    box = f"<section class=hazards>{hazards}</section>" if hazards else ""
    finish = " &nbsp;·&nbsp; ".join(text(word) for word in card.finish)
    last = f"<p class=finish><b>Then, by no clock:</b> {finish}</p>" if card.finish else ""
    return f"<footer>{box}{last}</footer>"


def _foot_height_mm(card: Card) -> float:
    room_mm = WIDTH_MM - 5.5
    written = sum(fit.lines(line, _FOOT_TYPE_MM, room_mm, bold=True) for line in card.hazards[:1])
    written += sum(fit.lines(line, _FOOT_TYPE_MM, room_mm) for line in card.hazards[1:])
    finish = fit.lines("Then, by no clock: " + "  ·  ".join(card.finish), _FOOT_TYPE_MM, room_mm)
    return (written + (finish if card.finish else 0)) * _FOOT_LINE_MM + 7.4


def _style(type_: _Type, spare_mm: float) -> str:
    time = round(_TIME_MM * type_.times, 2)
    name, detail = (round(size * type_.words, 2) for size in (_NAME_MM, _DETAIL_MM))
    gap = round((type_.gap_mm + spare_mm) / 2, 2)
    return f"""
header {{ height: {_HEAD_MM - 0.7:g}mm; overflow: hidden; border-bottom: 0.8mm solid #000;
          margin-bottom: 0.5mm; }}
h1 {{ font-size: 8mm; line-height: 1.1; white-space: nowrap; }}
.title {{ font-size: 5mm; border: 0.5mm solid #000; padding: 0 1.5mm; vertical-align: 1mm; }}
header p {{ font-size: 3.9mm; line-height: 1.2; white-space: nowrap; }}
.steps {{ table-layout: fixed; }}
.steps tr {{ border-bottom: {_RULE_MM:g}mm solid #000; break-inside: avoid; }}
.steps td {{ padding: {gap}mm 0; vertical-align: middle; }}
.where {{ width: {_PLACE_COLUMN_MM:g}mm; white-space: nowrap; font-size: {time}mm;
          line-height: {_TIME_LEADING:g}; }}
.place {{ font-weight: bold; display: inline-block; min-width: {1.1 * time:.2f}mm; }}
.tongs {{ font-size: 0.55em; border: 0.06em solid #000; border-radius: 0.3em; padding: 0.1em 0.2em 0;
          vertical-align: 0.12em; }}
.time {{ width: {_TIME_COLUMN_MM:g}mm; font-size: {time}mm; line-height: {_TIME_LEADING:g};
         font-weight: bold; }}
small {{ font-size: {_UNIT:g}em; }}
.name {{ font-size: {name}mm; line-height: {_LEADING:g}; font-weight: bold; }}
.detail {{ font-size: {detail}mm; line-height: {_LEADING:g}; }}
.light {{ outline: 0.9mm solid #000; outline-offset: -0.5mm; }}
.permit {{ font-size: {detail}mm; font-weight: normal; border: 0.3mm dashed #000; padding: 0 1mm;
           margin-left: 2mm; vertical-align: 12%; white-space: nowrap; line-height: 1; }}
footer {{ font-size: {_FOOT_TYPE_MM:g}mm; line-height: {_FOOT_LINE_MM:g}mm; margin-top: 2mm; }}
.hazards {{ border: 0.6mm solid #000; padding: 0.5mm 2mm; margin-bottom: 1.5mm; break-inside: avoid; }}
.hazards p:first-child {{ font-weight: bold; }}
"""
