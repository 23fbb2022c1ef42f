"""The darkroom as the bench draws it in a terminal: trays left to right, lamp, white light, pedal, display.

Only a picture of `Room`; where its facts come from is in `live`. Red on black, as a darkroom is.
"""

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
    keys: Sequence[tuple[str, str]] = field(default=())


def draw(room: Room) -> RenderableType:
    """The whole room."""
    return Group(
        _lamps(room),
        _trays(room),
        Align.center(_display(room)),
        _line("hears", "  ".join(room.sounds[-5:]) or "nothing", "red"),
        _line("journal", room.last_record or "nothing yet", "red dim"),
        _foot(room),
        _keys(room),
    )


def _lamps(room: Room) -> RenderableType:
    lamp = Text(" LAMP LIT ", "bold black on white") if room.lamp else Text(" lamp dark ", "red dim")
    white = (
        Text(" white light permitted ", "black on yellow")
        if room.white
        else Text(" white light locked ", "red dim")
    )
    sheet = f"sheet {room.sheet}" if room.sheet else "no sheet"
    where = (
        "under the lamp" if room.under_lamp else f"in tray {room.at_place}" if room.at_place else "in hand"
    )
    return Columns([lamp, white, Text(f"{sheet}, {where}" if room.sheet else sheet, "red")], padding=(0, 3))


def _trays(room: Room) -> RenderableType:
    return Columns([_tray(tray, tray.place == room.at_place) for tray in room.trays], padding=(0, 1))


def _tray(tray: Tray, holds_sheet: bool) -> Panel:
    body = Text(tray.bath[:16] + "\n", "red", no_wrap=True)
    body.append("▇▇ sheet" if holds_sheet else "", "bold red")
    title = f"{tray.place} {tray.tongs}".strip()
    return Panel(body, title=title, width=20, height=4, border_style="bold red" if holds_sheet else "red dim")


def _display(room: Room) -> Panel:
    style = ("black", "red dim", "red", "bold red")[min(room.brightness, 3)] if room.powered else "black"
    text = Text()
    for number, row in enumerate(room.rows or [[False] * DISPLAY_COLUMNS] * DISPLAY_ROWS):
        if number:
            text.append("\n")
        for dot in row:
            text.append(_ON if dot else _OFF, style if dot else "grey11")
    return Panel(text, width=2 * DISPLAY_COLUMNS + 4, border_style="red dim")


def _foot(room: Room) -> Text:
    line = Text()
    line.append(
        "  foot DOWN  " if room.foot_down else "  foot up    ",
        "bold black on red" if room.foot_down else "red",
    )
    line.append(f"  {room.clock}  {room.speed}", "red")
    line.append("" if room.powered else "   POWER OFF", "bold red")
    line.append(f"   {room.port}", "red dim")
    return line


def _keys(room: Room) -> Text:
    line = Text("  ")
    for key, does in room.keys:
        line.append(f"{key}", "bold red").append(f" {does}   ", "red dim")
    return line


def _line(name: str, text: str, style: str) -> Text:
    return Text(f"  {name:8}", "red dim", no_wrap=True).append(text, style)
