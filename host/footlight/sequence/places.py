"""Where in a file something stands: its line and step, for messages.

`tomllib` keeps no line numbers, so the headers and keys of the text are read once more, roughly: what
is found is used in messages only, and where nothing is found the message does without.
"""

import re
from dataclasses import dataclass, field, replace

_HEADER = re.compile(r"\s*(\[\[?)\s*([^\[\]#]+?)\s*\]")
_KEY = re.compile(r"\s*([A-Za-z0-9_-]+|\"[^\"]*\"|'[^']*')\s*[=.]")


def line_numbers(text: str) -> dict[tuple[str, str], int]:
    """(section, key) -> line. Sections are '' (the head), 'trays.fixer', 'step 3'; key '' is the header."""
    lines: dict[tuple[str, str], int] = {}
    section, counts, in_text = "", {}, False
    for number, line in enumerate(text.splitlines(), start=1):
        header = None if in_text else _HEADER.match(line)
        if header:
            section = _section(header[1], header[2], counts)
            lines.setdefault((section, ""), number)
        elif not in_text and (key := _KEY.match(line)):
            lines.setdefault((section, key[1].strip("\"'")), number)
        in_text ^= (line.count('"""') + line.count("'''")) % 2 == 1
    return lines


def _section(brackets: str, name: str, counts: dict[str, int]) -> str:
    name = ".".join(part.strip(" \"'") for part in name.split("."))
    if brackets == "[":
        return name
    counts[name] = counts.get(name, 0) + 1
    return f"{name} {counts[name]}"


@dataclass(frozen=True)
class Place:
    """A table of a file. `section` finds its lines; `title` is how a message calls it, '' for the head;
    `anchor` is the key that holds a table within a table, whose own keys have no lines."""

    file: str
    section: str = ""
    title: str = ""
    lines: dict[tuple[str, str], int] = field(default_factory=dict, repr=False)
    anchor: str = ""

    def of(self, key: str = "") -> str:
        """The subject of a message: `print.toml, line 12, step 3 'rinse': lift`."""
        line = self.lines.get((self.section, self.anchor or key)) or self.lines.get((self.section, ""))
        parts = [self.file, f"line {line}" if line else "", self.title]
        where = ", ".join(part for part in parts if part)
        return f"{where}: {key}" if key else where

    def table(self, section: str, title: str) -> "Place":
        """Another table of the same file."""
        return replace(self, section=section, title=title)

    def inner(self, key: str, title: str) -> "Place":
        """A table that is the value of a key, or stands in it."""
        return replace(self, title=f"{self.title}: {title}", anchor=key)
