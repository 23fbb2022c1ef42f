"""Fill the made parts of the pages: what stands between two markers; the rest is written by hand."""

from __future__ import annotations

import re
from pathlib import Path

MARK = re.compile(r"(<!-- made: (?P<name>[\w. -]+) -->\n).*?(<!-- end made -->)", re.DOTALL)


def fill(text: str, made: dict[str, str], page: Path) -> str:
    """Return the text with every marked part replaced.

    Raises:
        ValueError: when a page asks for a part that nobody makes.
    """

    def replaced(match: re.Match[str]) -> str:
        if match["name"] not in made:
            raise ValueError(
                f"{page.name}: nothing makes {match['name']!r}; there is: {', '.join(sorted(made))}"
            )
        return f"{match[1]}\n{made[match['name']].rstrip()}\n\n{match[3]}"

    return MARK.sub(replaced, text)
