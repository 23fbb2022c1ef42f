"""The list of sheets as a table and as JSON."""

from collections.abc import Sequence
from dataclasses import asdict
from typing import Any

from footlight.notebook.sheets.listing import Listed
from footlight.views.table import Grid
from footlight.views.times import when_text


def lines(listed: Sequence[Listed], width: int | None = None) -> list[str]:
    """Columns, `width` characters wide at most; those that no sheet has anything in are left out."""
    return grid(listed).lines(width)


def grid(listed: Sequence[Listed]) -> Grid:
    """The list as a table; the number of the sheet stands first."""
    head = ["sheet", "last run", "sequences", "ended", "paper", "verdict", "defects", "controller"]
    # A sheet whose journal is not home yet is of no controller that is known.
    several = len({sheet.controller for sheet in listed} - {""}) > 1
    rows = [
        [
            f"{sheet.number}",
            when_text(sheet.when) if sheet.titles else "in the camera",
            " + ".join(sheet.titles),
            sheet.ended or ("not ended" if sheet.titles else "–"),
            sheet.paper,
            sheet.verdict,
            ", ".join(sheet.defects),
            sheet.controller if several else "",
        ]
        for sheet in listed
    ]
    kept = [index for index in range(len(head)) if index < 4 or any(row[index] for row in rows)]
    return Grid([head[index] for index in kept], [[row[index] for index in kept] for row in rows])


def as_dict(sheet: Listed) -> dict[str, Any]:
    """For a script."""
    return {
        "sheet": sheet.number,
        "controller": sheet.controller,
        "epoch": sheet.epoch,
        **asdict(sheet.when),
        "sequences": sheet.titles,
        "ended": sheet.ended,
        "paper": sheet.paper or None,
        "verdict": sheet.verdict or None,
        "defects": sheet.defects,
    }
