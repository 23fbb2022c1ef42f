"""What stocks and baths do to you, in lines that fit a page."""

import textwrap
from collections.abc import Iterable, Sequence

from footlight.chemistry.hazards import HEADING_WIDTH, Hazards

_WIDTH = 104


def hazard_lines(hazards: Iterable[Hazards]) -> list[str]:
    """All that is to be known of each, wrapped; what an earlier one has already told is left out."""
    told: set[tuple[str, str]] = set()
    lines = []
    for known in hazards:
        lines += ["", f"Safety: {known.title}"]
        for heading, texts in known.sections:
            fresh = [text for text in texts if (heading, text) not in told]
            told |= {(heading, text) for text in fresh}
            lines += _section(heading, fresh)
    return lines


def _section(heading: str, texts: Sequence[str]) -> list[str]:
    lines = []
    for place, text in enumerate(texts):
        indent = f"  {heading if place == 0 else '':<{HEADING_WIDTH}}"
        lines += textwrap.wrap(
            text, _WIDTH, initial_indent=indent, subsequent_indent=" " * (HEADING_WIDTH + 4)
        )
    return lines


def short_lines(hazards: Iterable[Hazards]) -> list[str]:
    """Each in a sentence, wrapped."""
    return [
        line
        for known in hazards
        for line in textwrap.wrap(known.short, _WIDTH, initial_indent="  ", subsequent_indent=" " * 6)
    ]
