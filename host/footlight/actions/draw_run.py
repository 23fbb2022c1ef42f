"""The time line of a sheet's last run: its plan from the sequence, what was given from the notebook."""

import sqlite3
from pathlib import Path
from typing import Any

from footlight.notebook.errors import NotebookError
from footlight.notebook.journal import programs
from footlight.notebook.sheets import by_number
from footlight.notebook.sheets.by_number import RunPart, Story
from footlight.report.given import given_bars
from footlight.report.timeline import Bar, draw
from footlight.sequence.spans import Span, timeline
from footlight_core.program import LIGHT


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
    given = given_bars(by_number.records_by_boot(connection, story, part.run), steps, story.number)
    spans = timeline({"steps": steps, "sheets": 1})
    planned = [_bar(span, steps[span.step_number - 1]) for span in spans if span.end_ms > span.start_ms]
    draw(_title(story, part), planned, given, path)


def _bar(span: Span, step: dict[str, Any]) -> Bar:
    # A light's span is its gate time; what the paper gets is less by the dead time.
    note = f"{step['time_ms'] / 1000:.1f} s" if span.kind == LIGHT else "beside" if span.aside else ""
    return Bar(span.name, span.kind, span.start_ms, span.end_ms, span.lift_ms, note=note)


def _title(story: Story, part: RunPart) -> str:
    return f"Sheet {story.number}, run {part.run}: {part.name or part.title}"
