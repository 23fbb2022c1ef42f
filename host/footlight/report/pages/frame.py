"""What all pages share: one file that needs no other, for A4 and Letter alike, everything escaped."""

import base64
from html import escape

from footlight.errors import InputError

PAPERS = ("any", "a4", "letter")
# What A4 (210 x 297 mm) and Letter (215.9 x 279.4 mm) both hold within margins of 10 mm [mm].
MARGIN_MM = 10.0
WIDTH_MM = 190.0
_HEIGHTS_MM = {"any": 259.0, "a4": 277.0, "letter": 259.0}
# Metric twins, so that a page breaks alike on every system.
FONT = '"Liberation Sans", Arial, Helvetica, sans-serif'
_STYLE = f"""
* {{ box-sizing: border-box; }}
body {{ font-family: {FONT}; color: #000; background: #fff; margin: 0 auto; width: {WIDTH_MM:g}mm;
        font-variant-numeric: tabular-nums; overflow-wrap: anywhere; }}
h1, h2, p, table, ul {{ margin: 0; padding: 0; }}
table {{ border-collapse: collapse; width: 100%; }}
@media screen {{ body {{ padding: {MARGIN_MM:g}mm 0; }} }}
"""


def text(value: object) -> str:
    """Anything as text that no browser takes for markup."""
    return escape(f"{value}")


def height_mm(paper: str) -> float:
    """What a page of that paper holds from top to bottom [mm]."""
    return _HEIGHTS_MM[paper]


def page(title: str, style: str, body: str, paper: str = "any") -> str:
    """A whole page [HTML text]. body: markup that is escaped already; title: plain text."""
    size = "" if paper == "any" else f" size: {paper.capitalize() if paper == 'a4' else paper};"
    rule = f"@page {{{size} margin: {MARGIN_MM:g}mm; }}"
    return (
        f'<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n<title>{text(title)}</title>\n'
        f"<style>\n{rule}{_STYLE}{style}</style>\n</head>\n<body>\n{body}\n</body>\n</html>\n"
    )


def picture(data: bytes, media: str, words: str) -> str:
    """A picture within the page itself; `words` for who cannot see it. Raises InputError for another kind."""
    if media not in ("image/png", "image/jpeg", "image/svg+xml"):
        raise InputError(f"{words}: '{media}' is no picture that a page shows; attach a PNG or a JPEG")
    return f'<img alt="{text(words)}" src="data:{media};base64,{base64.b64encode(data).decode("ascii")}">'
