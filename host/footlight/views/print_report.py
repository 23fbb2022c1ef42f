"""The facts of one print, gathered for its report."""

import json
import sqlite3
import tempfile
from pathlib import Path

from footlight.cli.side import Side, TrayBath
from footlight.errors import FootlightError
from footlight.meanings import fault_text
from footlight.notebook.sheets import by_number, pictures, readings
from footlight.notebook.sheets.by_number import RunPart, Story
from footlight.notebook.sheets.readings import Kept
from footlight.notebook.stock import light_setups
from footlight.quantities import format_age_h, format_seconds
from footlight.report.pages import curve
from footlight.report.pages.print_sheet import Curve, Picture, Report, Table
from footlight.views.run_table import RUN_HEAD, run_cells
from footlight.views.times import date_text, when_text

_NO_PLAN = "The time line is not drawn: {reason}."


def report_of(connection: sqlite3.Connection, side: Side, which: int | None) -> Report:
    """The report. which: of the pictures that were attached, None for the last."""
    story = side.story
    part = story.runs[-1] if story.runs else None
    ended = f"{part.name or part.title or 'a run'}, {when_text(part.when)}" if part else "no run is known"
    return Report(
        number=story.number,
        title=ended,
        facts={
            "Seen": _seen(side),
            "Paper": _paper(side),
            "In the camera": _camera(side),
            "Baths": [(one.tray, _bath(one)) for one in side.baths],
        },
        tables=[_table(run) for run in story.runs if run.rows],
        shown=_picture(connection, story, which),
        time_line=_time_line(connection, side),
        curves=[_curve(kept) for kept in _strips(connection, side)],
    )


def _seen(side: Side) -> list[tuple[str, str]]:
    """What was written about it: the verdict, defects in one line, notes."""
    texts = {kind: [one.text for one in side.written if one.kind == kind] for kind in ("verdict", "defect")}
    notes = [("note", one.text) for one in side.written if one.kind == "note"]
    return [(kind, ", ".join(found)) for kind, found in texts.items() if found] + notes


def _paper(side: Side) -> list[tuple[str, str]]:
    paper = side.paper
    if paper is None:
        return []
    speed = [("exposure index", f"{paper.speed:g}")] if paper.speed else []
    return [("batch", f"{paper.name}: {paper.paper}, {paper.size}"), *speed]


def _camera(side: Side) -> list[tuple[str, str]]:
    one = side.camera
    if one is None:
        return []
    pairs = [
        ("subject", one.subject),
        ("light on it", one.light),
        ("filter", one.filter),
        ("lens, stop", ", ".join(part for part in (one.lens, one.stop) if part)),
        ("exposure index", f"{one.exposure_index:g}" if one.exposure_index else ""),
        ("planned", format_seconds(one.planned_s) if one.planned_s else ""),
        ("given", format_seconds(one.given_s) if one.given_s else ""),
        ("holder", one.holder),
        ("arithmetic", "; ".join(one.arithmetic.splitlines())),
    ]
    return [(what, value) for what, value in pairs if value]


def _bath(one: TrayBath) -> str:
    return f"mixed {date_text(one.bath.mixed_unix_s)}, {format_age_h(one.age_h)} old"


def _table(part: RunPart) -> Table:
    name, batch = part.name or part.title or "A run", f", a batch of {part.sheets}" if part.sheets > 1 else ""
    faults = [f"fault: {fault_text(code)}" for code in part.faults]
    return Table(
        title=f"{name}{batch}, {when_text(part.when)}: {part.ended or 'not ended'}",
        rows=[RUN_HEAD, *(run_cells(row) for row in part.rows)],
        notes=[*faults, *part.arithmetic.splitlines()],
    )


def _picture(connection: sqlite3.Connection, story: Story, which: int | None) -> Picture | None:
    kept = pictures.of_sheet(connection, story.sheet_id)
    if not kept and which is None:
        return None
    sheet = by_number.find(connection, story.number, story.controller)
    return Picture(pictures.data_of(connection, sheet, which), kept[which - 1 if which else -1].media)


def _time_line(connection: sqlite3.Connection, side: Side) -> Picture | str:
    from footlight.actions.draw_run import draw_last_run

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "time-line.svg"
        try:
            draw_last_run(connection, side.story, path)
        except FootlightError as error:
            # A report without its drawing is still a report: it says what is missing and why.
            return _NO_PLAN.format(reason=f"{error}".rstrip("."))
        return Picture(path.read_bytes(), "image/svg+xml")


def _strips(connection: sqlite3.Connection, side: Side) -> list[Kept]:
    """The readings of the sheet itself, and of the strips that its light setups' references came from."""
    own = readings.of_sheet(connection, side.story.sheet_id)
    at_s = max((part.when.to_unix_s or 0 for part in side.story.runs), default=0)
    numbers = light_setups.readings_behind(connection, side.setups, at_s)
    return own + [readings.find(connection, one) for one in numbers if one not in {kept.id for kept in own}]


def _curve(kept: Kept) -> Curve:
    found = json.loads(kept.result)
    bands: dict[str, list[tuple[float, float]]] = {}
    for step in found.get("steps") or []:
        if isinstance(step, dict) and step.get("dose_stops") is not None:
            bands.setdefault(step["band"], []).append((step["dose_stops"], step["density_d"]))
    advice = found.get("advice") or {}
    words = list(advice.get("words") or found.get("words") or [])
    setup = f" for light setup '{kept.setup}'" if kept.setup else ""
    of = f" on sheet {kept.sheet}" if kept.sheet else ""
    measured = [
        f"{what} {value:.{decimals}f} D"
        for what, value, decimals in (
            ("Dmax", kept.d_max, 2),
            ("veil", kept.veil_d, 3),
            ("mottle", kept.mottle_d, 3),
        )
        if value is not None
    ]
    words += [", ".join(measured)] if measured else []
    return Curve(
        f"Reading {kept.id}: {kept.kind}{setup}{of}, {date_text(kept.done_unix_s)}",
        curve.svg(bands, advice.get("stops")),
        words,
    )
