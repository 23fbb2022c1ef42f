"""Make firmware/controller/font.py from letters.txt: `python -m hardware.generate_font`."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

SOURCE = Path(__file__).with_name("letters.txt")
TARGET = Path(__file__).parent.parent / "firmware" / "controller" / "font.py"

# No column of any letter looks so: every other dot.
GAP = 0x55

HEAD = '''"""The display's letters. Made from hardware/letters.txt: do not edit."""

# One byte a column, its lowest bit the top row. Letters are parted by a byte that no column looks like.
_GAP = b"\\x55"
'''

Font = dict[str, bytes]


def read_fonts(text: str) -> dict[str, Font]:
    """Return the fonts: name -> letter -> its columns. Raises ValueError for a bad drawing."""
    fonts: dict[str, Font] = {}
    for part in text.split("\n== ")[1:]:
        name, _, drawings = part.partition("\n")
        fonts[name] = dict(_letter(drawing.splitlines()) for drawing in drawings.strip("\n").split("\n\n"))
    return fonts


def _letter(lines: list[str]) -> tuple[str, bytes]:
    name = lines[0].split()[0]
    char = " " if name == "SPACE" else name
    rows = [line.split()[-1] for line in lines]
    if len(char) != 1 or len({len(row) for row in rows}) != 1 or set("".join(rows)) - set(".#"):
        raise ValueError(f"letters.txt: {name}: rows of one length, of . and # alone, are wanted; {rows}")
    columns = bytes(
        sum(1 << y for y, dot in enumerate(column) if dot == "#") for column in zip(*rows, strict=True)
    )
    if GAP in columns:
        raise ValueError(f"letters.txt: {name}: a column may not be of every other dot")
    return char, columns


def render(fonts: dict[str, Font]) -> str:
    """Return the text of the firmware's font.py."""
    return HEAD + "".join(_constants(name.upper(), font) for name, font in fonts.items())


def _constants(name: str, font: Font) -> str:
    lines = [f'            b"{line}"' for line in _wrapped(_escaped(font.values()))]
    drawn = "\n".join(["        (", *lines, "        ).split(_GAP),"])
    return f'\n{name} = dict(\n    zip(\n        "{"".join(font)}",\n{drawn}\n    )\n)\n'


def _escaped(letters: Iterable[bytes]) -> list[str]:
    data = bytes([GAP]).join(letters)
    return [f"\\x{byte:02x}" for byte in data]


def _wrapped(bytes_: list[str], each: int = 20) -> Iterable[str]:
    for start in range(0, len(bytes_), each):
        yield "".join(bytes_[start : start + each])


def main() -> None:
    """Write the file."""
    TARGET.write_text(render(read_fonts(SOURCE.read_text(encoding="utf-8"))), encoding="utf-8")


if __name__ == "__main__":
    main()
