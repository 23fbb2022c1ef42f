"""Evenings as lines of text and as JSON."""

import sqlite3
import time
from collections.abc import Iterator, Sequence
from dataclasses import asdict
from typing import Any

from footlight.actions.recall_session import EveningSheets, Session, SessionRun
from footlight.notebook.dates import When
from footlight.notebook.sheets.sessions import Evening
from footlight.quantities.spans import format_spans
from footlight.views.table import columns
from footlight.views.times import date_text, when_text


def session_lines(listed: Sequence[EveningSheets], width: int | None = None) -> list[str]:
    """Evenings as a table, `width` characters wide at most; nothing without any."""
    rows = [
        [
            began(night.evening),
            night.evening.name or "–",
            f"{len(night.evening.runs)}",
            format_spans(night.sheets),
        ]
        for night in listed
    ]
    return columns(["began", "name", "runs", "sheets"], rows, width)


def whole(session: Session, width: int | None = None) -> Iterator[str]:
    """One evening: its runs and sheets, verdicts, and the baths in use."""
    evening = session.evening
    yield f"{evening.name or 'Evening'}: {_span(evening)}"
    if evening.note:
        yield evening.note
    head = ["began", "sequence", "sheets", "ended", "verdict"]
    yield from columns(head, [_row(run) for run in session.runs], width)
    if not session.runs:
        yield "No run with a date began in it."
    for bath in session.baths:
        made = bath.formula or bath.made_from or f"{bath.volume_ml:g} mL"
        yield f"{bath.name}: {made}, mixed {date_text(bath.mixed_unix_s)}"


def as_dict(session: Session) -> dict[str, Any]:
    """For a script."""
    return asdict(session.evening) | {
        "runs": [dict(run.known) | {"sheets": run.sheets} for run in session.runs],
        "verdicts": {number: text for run in session.runs for number, text in run.verdicts},
        "baths": [asdict(bath) for bath in session.baths],
    }


def _row(run: SessionRun) -> list[str]:
    return [
        _clock(run.known) or f"run {run.known['run']}",
        run.known["title"] or "?",
        format_spans(run.sheets),
        run.known["ended"] or "not ended",
        # A batch was not yet printed.
        run.verdicts[0][1] if run.verdicts and len(run.sheets) == 1 else "–",
    ]


def _clock(run: sqlite3.Row) -> str:
    """Its time of day, '' where it is not known."""
    known = run["from_unix_s"] is not None and run["from_unix_s"] == run["to_unix_s"]
    return time.strftime("%H:%M", time.localtime(run["from_unix_s"])) if known else ""


def began(evening: Evening) -> str:
    """When an evening began, or between what that was."""
    if evening.dated and evening.from_unix_s is not None:
        return date_text(evening.from_unix_s)
    return when_text(When(evening.from_unix_s, evening.to_unix_s))


def _span(evening: Evening) -> str:
    from_s, to_s = evening.from_unix_s, evening.to_unix_s
    if not evening.dated or from_s is None or to_s is None:
        return began(evening)
    same_day = time.localtime(from_s)[:3] == time.localtime(to_s)[:3]
    end = time.strftime("%H:%M", time.localtime(to_s)) if same_day else date_text(to_s)
    return date_text(from_s) if from_s == to_s else f"{date_text(from_s)} to {end}"
