"""The darkroom as the bench draws it in a terminal: trays left to right, lamp, white light, pedal, display.

Only a picture of `Room`; where its facts come from is in `scene`. Red on black, as a darkroom is.
"""

import textwrap
from collections.abc import Sequence
from dataclasses import dataclass, field

from rich.align import Align
from rich.columns import Columns
from rich.console import Group, RenderableType
from rich.panel import Panel
from rich.text import Text

DISPLAY_ROWS = 8
DISPLAY_COLUMNS = 32
_ON = "██"
_OFF = " ."
_HALVES = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}
_TRAY_WIDEST = 22
_TRAY_NARROWEST = 12
_BATH_LINES = 2
# Lines of everything else, with the large display and one row of trays.
_LINES = 21


@dataclass
class Tray:
    """A tray on the bench: its place, its bath, and the letter of its tongs."""

    place: str
    bath: str
    tongs: str = ""


@dataclass
class Room:
    """What can be seen and heard at one moment."""

    trays: Sequence[Tray] = ()
    no_trays: str = ""  # why there are none
    sheet: str = ""  # number of the sheet under way
    at_place: str = ""  # the tray that the sheet is in
    under_lamp: bool = False
    lamp: bool = False
    white: bool = False
    foot_down: bool = False
    powered: bool = True
    rows: Sequence[Sequence[bool]] = ()
    brightness: int = 1
    sounds: Sequence[str] = ()
    last_record: str = ""
    clock: str = "0:00"
    speed: str = "×1"
    port: str = ""
    warning: str = ""
    keys: Sequence[tuple[str, str]] = field(default=())


def draw(room: Room, columns: int = 110, lines: int = 32) -> RenderableType:
    """The whole room, for a terminal of so many columns and lines."""
    width, tray_rows = _tray_layout(len(room.trays), columns)
    fits = lines >= _LINES + 5 * (tray_rows - 1) and columns >= 2 * DISPLAY_COLUMNS + 4
    spare = lines - _LINES - 5 * (tray_rows - 1)
    return Group(
        _lamps(room),
        *_trays(room, width, columns, _BATH_LINES + min(2, max(0, spare // max(1, tray_rows)))),
        Align.center(_display(room, fits)),
        _line("hears", "  ·  ".join(room.sounds) or "nothing", "red"),
        _line("journal", room.last_record or "nothing yet", "red dim"),
        _foot(room),
        _keys(room),
        _line("", room.warning, "bold red"),
    )


def where(room: Room) -> str:
    """Where the sheet is, in words."""
    if not room.sheet:
        return "no sheet"
    if room.under_lamp:
        return f"sheet {room.sheet}, under the lamp"
    return f"sheet {room.sheet}, in tray {room.at_place}" if room.at_place else f"sheet {room.sheet}, in hand"


def _lamps(room: Room) -> RenderableType:
    lamp = Text("  LAMP LIT  ", "bold black on white") if room.lamp else Text(" lamp dark  ", "red dim")
    white = (
        Text(" white light permitted ", "black on yellow")
        if room.white
        else Text(" white light locked    ", "red dim")
    )
    return Columns([lamp, white, Text(where(room), "bold red" if room.sheet else "red dim")], padding=(0, 3))


def _tray_layout(count: int, columns: int) -> tuple[int, int]:
    """Width of a tray and number of rows: one row if the trays then still have room for a word."""
    if not count:
        return 0, 0
    rows = 1
    while (columns - 1) // -(-count // rows) - 1 < _TRAY_NARROWEST and rows < count:
        rows += 1
    return min(_TRAY_WIDEST, (columns - 1) // -(-count // rows) - 1), rows


def _trays(room: Room, width: int, columns: int, bath_lines: int) -> list[RenderableType]:
    if not room.trays:
        return [_line("trays", room.no_trays or "none", "red dim")]
    wanted = max(len(textwrap.wrap(tray.bath, width - 4)) for tray in room.trays)
    bath_lines = min(bath_lines, max(1, wanted))
    across = max(1, (columns - 1) // (width + 1))
    rows = [room.trays[first : first + across] for first in range(0, len(room.trays), across)]
    return [
        Columns([_tray(room, tray, width, bath_lines) for tray in row], padding=(0, 1, 0, 0)) for row in rows
    ]


def _tray(room: Room, tray: Tray, width: int, bath_lines: int) -> Panel:
    holds_sheet = bool(room.sheet) and tray.place == room.at_place
    inside = width - 4
    words = Text("\n".join(_folded(tray.bath, inside, bath_lines)) + "\n", "red", no_wrap=True)
    words.append(("▇" * 6 if holds_sheet else "").ljust(inside), "bold red")
    title = f"{tray.place} {tray.tongs}".strip()
    return Panel(
        words,
        title=title,
        width=width,
        height=bath_lines + 3,
        border_style="bold red" if holds_sheet else "red dim",
    )


def _folded(text: str, width: int, count: int) -> list[str]:
    """The text on so many lines; what does not fit is left away."""
    folded = textwrap.wrap(text, width, max_lines=count, placeholder="…") or [""]
    return folded + [""] * (count - len(folded))


def _display(room: Room, large: bool) -> Panel:
    style = ("black", "red dim", "red", "bold red")[min(room.brightness, 3)]
    rows = room.rows if room.powered and room.rows else [[False] * DISPLAY_COLUMNS] * DISPLAY_ROWS
    text = _dots(rows, style) if large else _half_dots(rows, style)
    width = (2 if large else 1) * DISPLAY_COLUMNS + 4
    return Panel(text, width=width, border_style="red dim")


def _dots(rows: Sequence[Sequence[bool]], style: str) -> Text:
    lines = [[(_ON, style) if dot else (_OFF, "grey11") for dot in row] for row in rows]
    return Text("\n").join(Text.assemble(*line) for line in lines)


def _half_dots(rows: Sequence[Sequence[bool]], style: str) -> Text:
    pairs = [zip(rows[y], rows[y + 1], strict=True) for y in range(0, DISPLAY_ROWS, 2)]
    return Text("\n".join("".join(_HALVES[pair] for pair in pair_row) for pair_row in pairs), style)


def _foot(room: Room) -> Text:
    line = Text(no_wrap=True)
    line.append(
        "  foot DOWN  " if room.foot_down else "  foot up    ",
        "bold black on red" if room.foot_down else "red",
    )
    line.append(f"  {room.clock}  {room.speed}", "red")
    line.append("" if room.powered else "   POWER OFF", "bold red")
    line.append(f"   {room.port}", "red dim")
    return line


def _keys(room: Room) -> Text:
    line = Text("  ", no_wrap=True)
    for key, does in room.keys:
        line.append(f"{key}", "bold red").append(f" {does}   ", "red dim")
    return line


def _line(name: str, text: str, style: str) -> Text:
    return Text(f"  {name:8}" if name else "  ", "red dim", no_wrap=True, overflow="ellipsis").append(
        text, style
    )
