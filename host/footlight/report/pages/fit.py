"""How much room a text takes in print, so that a page is kept to one page without a browser.

Widths are the advance widths of Liberation Sans, Arial's metric twin, in parts of the type size.
"""

_REGULAR = {
    0.191: "'",
    0.222: "ijl",
    0.26: "|",
    0.278: " !,./:;I[\\]ft·",
    0.333: "()-`r",
    0.334: "{}",
    0.355: '"',
    0.389: "*",
    0.4: "°",
    0.469: "^",
    0.5: "Jcksvxyzç",
    0.549: "±",
    0.556: "#$0123456789?L_abdeghnopqu–äöüéèà",
    0.584: "+<=>~×",
    0.611: "FTZß",
    0.667: "&ABEKPSVXYÄ",
    0.722: "CDHNRUwÜ",
    0.778: "GOQÖ",
    0.833: "Mm",
    0.834: "½",
    0.889: "%",
    0.944: "W",
    1.0: "—→…",
    1.015: "@",
}
_BOLD = {
    0.238: "'",
    0.278: " ,./I\\ijl·",
    0.28: "|",
    0.333: "!()-:;[]`ft",
    0.389: "*r{}",
    0.4: "°",
    0.474: '"',
    0.5: "z",
    0.549: "±",
    0.556: "#$0123456789J_aceksvxy–äéèàç",
    0.584: "+<=>^~×",
    0.611: "?FLTZbdghnopqußöü",
    0.667: "EPSVXY",
    0.722: "&ABCDHKNRUÄÜ",
    0.778: "GOQwÖ",
    0.833: "M",
    0.834: "½",
    0.889: "%m",
    0.944: "W",
    0.975: "@",
    1.0: "—→…",
}
_REGULAR_OF = {char: width for width, chars in _REGULAR.items() for char in chars}
_BOLD_OF = {char: width for width, chars in _BOLD.items() for char in chars}
# Of other letters, which may come from another type.
_WIDEST = 1.02


def width_mm(text: str, size_mm: float, bold: bool = False) -> float:
    """The width of a line [mm] in type of `size_mm` [mm]."""
    widths = _BOLD_OF if bold else _REGULAR_OF
    return sum(widths.get(char, _WIDEST) for char in text) * size_mm


def lines(text: str, size_mm: float, room_mm: float, bold: bool = False) -> int:
    """How many lines a text takes in a column of `room_mm` [mm]; 0 for no text."""
    count, used_mm = 0, room_mm
    blank_mm = width_mm(" ", size_mm, bold)
    for word in text.split():
        word_mm = width_mm(word, size_mm, bold)
        if used_mm + blank_mm + word_mm <= room_mm:
            used_mm += blank_mm + word_mm
            continue
        # A word that is wider than the column is broken where it must be.
        more, rest_mm = divmod(word_mm, room_mm)
        count += 1 + int(more)
        used_mm = rest_mm
    return count
