"""One line of a check list."""

from dataclasses import dataclass
from typing import Literal

About = Literal[
    "bath",
    "tray",
    "paper",
    "water",
    "tongs",
    "wear",
    "air",
    "white light",
    "light",
    "safelight",
    "sheet",
    "room",
]


@dataclass(frozen=True)
class Check:
    """A thing to see to before a run. wrong: it is known not to be in order; else a person ticks it."""

    about: About
    text: str
    wrong: bool = False
