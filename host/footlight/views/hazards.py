"""What stocks and baths do to you, in lines that fit a page."""

import textwrap
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from footlight.chemistry.hazards import HEADING_WIDTH, Hazards

_WIDTH = 104


def hazard_lines(hazards: Iterable[Hazards]) -> list[str]:
    """All that is to be known of each, wrapped; what an earlier one has already told is left out."""
    lines = []
    for told in told_once(hazards):
        lines += ["", f"Safety: {told.title}"]
        for heading, texts in told.sections:
            lines += _section(heading, texts)
    return lines


@dataclass(frozen=True)
class ToldHazards:
    """Of what, and under each heading what an earlier one has not told already."""

    title: str
    sections: list[tuple[str, list[str]]]


def told_once(hazards: Iterable[Hazards]) -> list[ToldHazards]:
    """All that is to be known of each, nothing twice."""
    told: set[tuple[str, str]] = set()
    every = []
    for known in hazards:
        sections = []
        for heading, texts in known.sections:
            fresh = [text for text in texts if (heading, text) not in told]
            told |= {(heading, text) for text in fresh}
            sections += [(heading, fresh)] if fresh else []
        every.append(ToldHazards(known.title, sections))
    return every


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
