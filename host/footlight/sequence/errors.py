"""How a fault in a file is said: one line, printable, with the place it is in."""

from footlight.quantities.table import suggestion

_SHORT = 40


def short(value: object) -> str:
    """Any value, as something that can stand in a message: printable and short."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list):
        return "a list"
    text = printable(value if isinstance(value, str) else f"{value}")
    return text if len(text) <= _SHORT else text[: _SHORT - 3] + "..."


def printable(text: str) -> str:
    """Text without anything that a terminal would obey: control characters are spelled out."""
    return "".join(char if char.isprintable() else repr(char)[1:-1] for char in text)


def nearest(word: str, known: list[str]) -> str:
    """`; did you mean 'lift'?`, or all that there is; empty where there is nothing."""
    return suggestion(word, known) if known else ""
