"""The display at moments worth a look, drawn beside one another."""

from collections.abc import Callable
from dataclasses import dataclass

import click

from footlight.bench import Bench

ACROSS = 3
_HALVES = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}


@dataclass(frozen=True)
class Moment:
    """What the display showed, when, and why it is worth a look."""

    at_ms: int
    word: str
    rows: list[list[bool]]


class Moments:
    """Collects moments; each word once until they are printed."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench
        self._kept: list[Moment] = []

    def any(self) -> Callable[[str], None]:
        """A look that keeps the first moment of each word."""
        return self._keep

    def only(self, *words: str) -> Callable[[str], None]:
        """A look that keeps these words alone."""
        return lambda word: self._keep(word) if word in words else None

    def print(self) -> None:
        """Draw what was kept, and begin anew."""
        for first in range(0, len(self._kept), ACROSS):
            row = self._kept[first : first + ACROSS]
            click.echo("   ".join(f"{_label(moment):<34}" for moment in row).rstrip())
            for lines in zip(*(_drawn(moment.rows) for moment in row), strict=True):
                click.echo("   ".join(click.style(line, fg="red") for line in lines))
        self._kept = []

    def _keep(self, word: str) -> None:
        if all(moment.word != word for moment in self._kept):
            self._kept.append(Moment(self._bench.now_ms, word, self._bench.screen_rows()))


def _label(moment: Moment) -> str:
    seconds = moment.at_ms // 1000
    return f"{seconds // 60}:{seconds % 60:02d}  {moment.word}"


def _drawn(rows: list[list[bool]]) -> list[str]:
    """Two rows of dots to a line of text, in a frame."""
    edge = "─" * 32
    lines = [
        "".join(_HALVES[upper, lower] for upper, lower in zip(rows[y], rows[y + 1], strict=True))
        for y in range(0, 8, 2)
    ]
    return [f"╭{edge}╮", *(f"│{line}│" for line in lines), f"╰{edge}╯"]
