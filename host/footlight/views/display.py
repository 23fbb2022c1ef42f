"""The controller's display as text, looks beside one another, red as it is."""

from collections.abc import Iterator, Sequence

from footlight.bench.looks import Look

ACROSS = 3
_HALVES = {(False, False): " ", (True, False): "▀", (False, True): "▄", (True, True): "█"}
_RED, _PLAIN = "\x1b[31m", "\x1b[0m"


def display_lines(looks: Sequence[Look]) -> Iterator[str]:
    """Every look in a frame, its time and word above; with the terminal's colour for red."""
    for first in range(0, len(looks), ACROSS):
        row = looks[first : first + ACROSS]
        yield "   ".join(f"{_label(look):<34}" for look in row).rstrip()
        for lines in zip(*(_drawn(look.rows) for look in row), strict=True):
            yield "   ".join(f"{_RED}{line}{_PLAIN}" for line in lines)


def _label(look: Look) -> str:
    seconds = look.at_ms // 1000
    return f"{seconds // 60}:{seconds % 60:02d}  {look.word}"


def _drawn(rows: list[list[bool]]) -> list[str]:
    """Two rows of dots to a line of text, in a frame."""
    edge = "─" * 32
    lines = [
        "".join(_HALVES[upper, lower] for upper, lower in zip(rows[y], rows[y + 1], strict=True))
        for y in range(0, 8, 2)
    ]
    return [f"╭{edge}╮", *(f"│{line}│" for line in lines), f"╰{edge}╯"]
