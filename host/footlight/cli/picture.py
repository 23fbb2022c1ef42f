"""The time line of a sheet's last run: its plan from the sequence, what was given from the notebook."""

import sqlite3
from pathlib import Path

from footlight.notebook import programs, sheets
from footlight.notebook.errors import NotebookError
from footlight.notebook.sheets import RunPart, Story
from footlight.report.given import given_bars
from footlight.report.timeline import Bar, draw
from footlight.sequence.spans import Span, timeline


def draw_last_run(connection: sqlite3.Connection, story: Story, path: Path) -> None:
    """Write the picture. Raises NotebookError when the run's sequence is not in the notebook."""
    if not story.runs:
        raise NotebookError(f"sheet {story.number}: no run is known, so there is nothing to draw")
    part = story.runs[-1]
    steps = programs.planned_steps(connection, part.sha)
    if not steps:
        raise NotebookError(
            f"sheet {story.number}: its sequence was not sent from this notebook, so its plan is not known"
        )
    given = given_bars(sheets.records_by_boot(connection, story, part.run), steps, story.number)
    planned = [bar for bar in map(_bar, timeline({"steps": steps, "sheets": 1})) if bar.end_ms > bar.start_ms]
    draw(_title(story, part), planned, given, path)


def _bar(span: Span) -> Bar:
    seconds = f"{(span.end_ms - span.start_ms) / 1000:.1f} s" if span.kind == "light" else ""
    return Bar(span.name, span.kind, span.start_ms, span.end_ms, span.lift_ms, note=seconds)


def _title(story: Story, part: RunPart) -> str:
    return f"Sheet {story.number}, run {part.run}: {part.name or part.title}"
