"""A run of a sheet as a table, a row a step: planned against given."""

import math

from footlight.notebook.sheets.by_number import BathRow, LightRow, RunPart
from footlight.quantities.signs import signed_stops
from footlight.report import aftermath
from footlight.views.counted import counted_text
from footlight.views.table import Grid
from footlight.views.times import bath_text, light_text, range_text, signed_text, when_text

RUN_HEAD = ["step", "what", "planned", "given", "difference", "how"]
_HOW = {
    "whole": "whole",
    "held": "stopped, the rest not given",
    "short": "short by less than the relay can do",
    "abandoned": "the rest abandoned",
    "time": "on time",
    "pedal": "by pedal",
    "early": "ended early",
    "skipped": "skipped",
    "aside": "ran beside the next steps",
    "left": "left",
    "broken": "cut off",
    None: "end not known",
}


def part_lines(part: RunPart, arithmetic: bool, width: int | None = None) -> list[str]:
    """One run of a sheet as lines of text. width: of the terminal in characters."""
    inner = None if width is None else width - 2
    return [
        run_title(part),
        *(f"  {line}" for line in run_grid(part).lines(inner)),
        *(f"  {line}" for line in run_notes(part)),
        *(f"  {line}" for line in part.arithmetic.splitlines() if arithmetic),
    ]


def run_title(part: RunPart) -> str:
    """Which run it was, and how it ended."""
    title = part.title or "a run whose beginning is damaged"
    name = f", {part.name}" if part.name else ""
    batch = f", a batch of {part.sheets}" if part.sheets > 1 else ""
    ended = _HOW.get(part.ended, part.ended) if part.ended else "not ended"
    return f"{title}{name}{batch}: {when_text(part.when)}; {ended}"


def run_grid(part: RunPart) -> Grid:
    """A row a step."""
    return Grid(RUN_HEAD, [run_cells(row) for row in part.rows])


def run_notes(part: RunPart) -> list[str]:
    """What is to be looked for on the print, and what is not known of the run."""
    lines = []
    if not part.name and part.sha:
        lines.append(
            f"The sequence {part.sha[:8]} was not sent from this notebook: planned baths are not known."
        )
    lines += [f"look: {advice.text}" for advice in aftermath.of_steps(part)]
    return lines + [f"fault: {advice.text}" for advice in aftermath.of_faults(part)]


def run_cells(row: BathRow | LightRow) -> list[str]:
    """One step of a run as the cells under `RUN_HEAD`."""
    return _bath_row(row) if isinstance(row, BathRow) else _light_row(row)


def _bath_row(row: BathRow) -> list[str]:
    planned = bath_text(row.planned_ms)
    if row.most_ms is not None:
        planned = f"{planned} to {bath_text(row.most_ms)}"
    skipped = row.how == "skipped"
    return [
        f"{row.step}",
        row.name,
        planned,
        "–" if row.how == "aside" else bath_text(row.real_ms),
        "–" if skipped or row.how == "aside" else signed_text(row.difference_ms),
        _HOW.get(row.how, row.how or ""),
    ]


def _light_row(row: LightRow) -> list[str]:
    given = range_text(row.least_ms, row.most_ms)
    return [
        f"{row.step}",
        row.name + _setup(row),
        light_text(row.planned_ms),
        given,
        _stops(row),
        _light_how(row),
    ]


def _setup(row: LightRow) -> str:
    words = [str(row.setup[key]) for key in ("lens", "stop") if key in row.setup]
    if "height_mm" in row.setup:
        words.append(f"{row.setup['height_mm']} mm")
    return f" ({' '.join(words)})" if words else ""


def _stops(row: LightRow) -> str:
    """The difference as a printer counts it."""
    if not row.planned_ms or row.least_ms != row.most_ms:
        return "–"
    if row.least_ms == 0:
        return "no light"
    stops = math.log2(row.least_ms / row.planned_ms)
    return "0" if abs(stops) < 0.005 else signed_stops(stops)


def _light_how(row: LightRow) -> str:
    how = _HOW.get(row.how, row.how or "")
    lamp = f"lamp on {row.gate_ms / 1000:.2f} s"
    if len(row.parts) > 1:
        lamp += " = " + " + ".join(f"{part / 1000:.2f}" for part in row.parts)
    words = [how, counted_text(row.measured), lamp] if row.gate_ms else [how]
    return "; ".join(word for word in words if word)
