"""The report of one print: its facts as words and tables for the page."""

import json

from footlight.actions.recall_print import Print, TrayBath
from footlight.actions.report_print import PrintFacts
from footlight.meanings import fault_text
from footlight.notebook.sheets.by_number import RunPart
from footlight.notebook.sheets.readings import Kept
from footlight.quantities import format_age_h, format_seconds
from footlight.report.pages import curve, print_sheet
from footlight.report.pages.print_sheet import Curve, Report, Table
from footlight.views.run_table import RUN_HEAD, run_cells
from footlight.views.times import date_text, when_text


def report_of(facts: PrintFacts) -> Report:
    """The report; what is not known is left out."""
    recalled, time_line = facts.print, facts.time_line
    story = recalled.story
    part = story.runs[-1] if story.runs else None
    ended = f"{part.name or part.title or 'a run'}, {when_text(part.when)}" if part else "no run is known"
    if isinstance(time_line, str):
        time_line = f"The time line is not drawn: {time_line.rstrip('.')}."
    return Report(
        number=story.number,
        title=ended,
        facts={
            "Seen": _seen(recalled),
            "Paper": _paper(recalled),
            "In the camera": _camera(recalled),
            "Baths": [(stood.tray, _bath(stood)) for stood in recalled.baths],
        },
        tables=[_table(run) for run in story.runs if run.rows],
        shown=facts.shown,
        time_line=time_line,
        curves=[_curve(kept) for kept in facts.strips],
    )


def _seen(recalled: Print) -> list[tuple[str, str]]:
    """What was written about it: the verdict, defects in one line, notes."""
    texts = {
        kind: ", ".join(remark.text for remark in recalled.written if remark.kind == kind)
        for kind in ("verdict", "defect")
    }
    notes = [("note", remark.text) for remark in recalled.written if remark.kind == "note"]
    return [(kind, text) for kind, text in texts.items() if text] + notes


def _paper(recalled: Print) -> list[tuple[str, str]]:
    paper = recalled.paper
    if paper is None:
        return []
    speed = [("exposure index", f"{paper.speed:g}")] if paper.speed else []
    return [("batch", f"{paper.name}: {paper.paper}, {paper.size}"), *speed]


def _camera(recalled: Print) -> list[tuple[str, str]]:
    exposure = recalled.camera
    if exposure is None:
        return []
    pairs = [
        ("subject", exposure.subject),
        ("light on it", exposure.light),
        ("filter", exposure.filter),
        ("lens, stop", ", ".join(part for part in (exposure.lens, exposure.stop) if part)),
        ("exposure index", f"{exposure.exposure_index:g}" if exposure.exposure_index else ""),
        ("planned", format_seconds(exposure.planned_s) if exposure.planned_s else ""),
        ("given", format_seconds(exposure.given_s) if exposure.given_s else ""),
        ("holder", exposure.holder),
        ("arithmetic", "; ".join(exposure.arithmetic.splitlines())),
    ]
    return [(what, value) for what, value in pairs if value]


def _bath(stood: TrayBath) -> str:
    return f"mixed {date_text(stood.bath.mixed_unix_s)}, {format_age_h(stood.age_h)} old"


def _table(part: RunPart) -> Table:
    name, batch = part.name or part.title or "A run", f", a batch of {part.sheets}" if part.sheets > 1 else ""
    faults = [f"fault: {fault_text(code)}" for code in part.faults]
    return Table(
        title=f"{name}{batch}, {when_text(part.when)}: {part.ended or 'not ended'}",
        rows=[RUN_HEAD, *(run_cells(row) for row in part.rows)],
        notes=[*faults, *part.arithmetic.splitlines()],
    )


def report_page(report: Report, paper: str) -> str:
    """The report as a page of HTML. paper: one of `frame.PAPERS`."""
    return print_sheet.printed(report, paper)


def _curve(kept: Kept) -> Curve:
    result = json.loads(kept.result)
    bands: dict[str, list[tuple[float, float]]] = {}
    for step in result.get("steps") or []:
        if isinstance(step, dict) and step.get("dose_stops") is not None:
            bands.setdefault(step["band"], []).append((step["dose_stops"], step["density_d"]))
    advice = result.get("advice") or {}
    words = list(advice.get("words") or result.get("words") or [])
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
