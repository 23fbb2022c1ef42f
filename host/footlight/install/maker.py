"""The person at the bench, as bring-up sees them; and what came of each question."""

from dataclasses import dataclass
from typing import Protocol


@dataclass(frozen=True)
class Check:
    """One thing that was tried. `passed` is None when it was left out; `measured`: what was read or seen."""

    part: str
    what: str
    passed: bool | None
    measured: str = ""


class Maker(Protocol):
    """Who does, looks and answers."""

    def say(self, text: str) -> None:
        """A line to read."""
        ...

    def ready(self, text: str) -> None:
        """Something to do; comes back when it is done."""
        ...

    def confirm(self, question: str) -> bool | None:
        """Yes, no, or None: left out."""
        ...
