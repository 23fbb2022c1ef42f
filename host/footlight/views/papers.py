"""Batches of paper as lines of text and as JSON."""

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

from footlight.actions.list_papers import Paper, PaperList
from footlight.notebook.stock.papers import Batch, Finding
from footlight.quantities.spans import format_spans
from footlight.quantities.stops import format_stops
from footlight.views.table import Grid
from footlight.views.times import date_text

_HEAD = ["name", "paper", "size", "index", "bought", "used", "spoiled", "left"]
IN_USE = "* in use for its size"
_WORDS: Mapping[str, str] = {
    "speed": "exposure index",
    "pre-flash": "pre-flash threshold",
    "second": "second exposure",
    "use": "in use from here on",
}


def paper_lines(listed: PaperList, width: int | None = None) -> list[str]:
    """Batches as a table, `width` characters wide at most; nothing without any."""
    lines = grid(listed).lines(width)
    return [*lines, *([IN_USE] if lines else [])]


def grid(listed: PaperList) -> Grid:
    """Batches as a table; those in use are marked."""
    rows = [
        [
            f"{batch.name}{' *' if batch.id in listed.in_use else ''}",
            batch.paper,
            batch.size,
            "–" if batch.speed is None else f"{batch.speed:g}",
            *(f"{count}" for count in (batch.bought, batch.used, batch.spoiled, batch.left)),
        ]
        for batch in listed.batches
    ]
    return Grid(_HEAD, rows)


def whole(paper: Paper, width: int | None = None) -> list[str]:
    """Everything about one batch."""
    return [*about(paper), *findings(paper).lines(width)]


def about(paper: Paper) -> list[str]:
    """What a batch is, and what is left of it."""
    batch, sheets = paper.batch, paper.sheets
    counts = f"{batch.bought} bought, {batch.used} used, {batch.spoiled} spoiled: {batch.left} left"
    return [
        f"paper {batch.name}: {batch.paper}, {batch.size}",
        counts + (f"; sheets {format_spans(sheets)}" if sheets else ""),
    ]


def findings(paper: Paper) -> Grid:
    """What was found out about a batch."""
    rows = [
        [date_text(finding.found_unix_s), _WORDS.get(finding.kind, finding.kind), _value(finding)]
        for finding in paper.findings
    ]
    return Grid(["written", "what", "found"], rows)


def as_dict(batch: Batch) -> dict[str, Any]:
    """For a script."""
    return asdict(batch) | {"left": batch.left}


def _value(finding: Finding) -> str:
    value = ""
    if finding.value is not None:
        in_stops = finding.kind in ("pre-flash", "second")
        value = format_stops(finding.value) if in_stops else f"{finding.value:g}"
    setup = f"with '{finding.setup}'" if finding.setup else ""
    return " ".join(part for part in (value, setup, finding.text) if part)
