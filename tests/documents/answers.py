"""Whether a command answered what the page shows; `...` stands for whatever there is."""

import re

ELISION = "..."


def agrees(shown: str, said: str) -> bool:
    """A line of `...` is any number of lines, within a line any text; blanks at line ends do not count."""
    pattern = "".join(map(_line, _trimmed(shown)))
    return re.fullmatch(pattern, "".join(f"{line}\n" for line in _trimmed(said)), re.DOTALL) is not None


def _line(line: str) -> str:
    if line.strip() == ELISION:
        return r"(?:[^\n]*\n)*?"
    return r"[^\n]*?".join(map(re.escape, line.split(ELISION))) + r"\n"


def _trimmed(text: str) -> list[str]:
    return [line.rstrip() for line in text.strip("\n").splitlines()]
