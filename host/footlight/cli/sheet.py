"""`footlight sheet`: one sheet, planned against given."""

import math
from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import json_option, notebook_option, print_json, replace_option
from footlight.cli.whole_number import FROM_1
from footlight.notebook.sheets.by_number import BathRow, LightRow, RunPart, Story
from footlight.report import aftermath
from footlight.views.table import columns
from footlight.views.times import bath_text, light_text, range_text, signed_text, when_text

if TYPE_CHECKING:
    from footlight.notebook.sheets.life import Life

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


@click.command("sheet")
@click.argument("number", type=FROM_1)
@click.option("--controller", help="Which controller's, if several have a sheet of that number.")
@click.option("--arithmetic", is_flag=True, help="Also how the planned times came about.")
@click.option("--as-sent", is_flag=True, help="Also sequence and light setups as they were when sent.")
@click.option(
    "--picture",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Also draw the time line of its last run into this file (.svg, .png, .pdf).",
)
@replace_option
@notebook_option
@json_option
def command(
    number: int,
    controller: str | None,
    arithmetic: bool,
    as_sent: bool,
    picture: Path | None,
    replace: bool,
    book: Path,
    as_json: bool,
) -> None:
    """Show the whole life of sheet NUMBER, from its paper to what was written of it, planned against given.

    For a light: 'planned' is light on the paper, 'given' what it got, in how many parts, and for how long the
    lamp was switched on. For a bath: planned and real time, with its lift.

    \b
    Example:
      footlight sheet 41
      footlight sheet 41 --picture sheet-41.svg
    """
    from footlight.notebook.book import notebook
    from footlight.notebook.sheets import by_number, life

    if picture is not None:
        from footlight.report.sheet_of_graphs import check_name

        check_name(picture, replace)
    with notebook(book, writing=False) as connection:
        story = by_number.story(connection, by_number.find(connection, number, controller))
        if picture is not None:
            from footlight.cli.picture import draw_last_run

            draw_last_run(connection, story, picture)
        whole = life.of_sheet(connection, story)
    if as_json:
        paper = asdict(whole.paper) | {"left": whole.paper.left} if whole.paper else None
        print_json(_as_dict(story) | asdict(whole) | {"paper": paper})
        return
    for line in _lines(story, whole, arithmetic, as_sent):
        click.echo(line)


def _lines(story: Story, whole: "Life", arithmetic: bool, as_sent: bool) -> Iterator[str]:
    from footlight.cli import life_lines

    yield _head(story)
    yield from life_lines.before(whole)
    for part in story.runs:
        yield from ["", *part_lines(part, arithmetic), *life_lines.baths_of(whole, part.run)]
        yield from _as_sent(part) if as_sent else []
    rest = list(life_lines.after(whole))
    yield from ["", *rest] if rest else []


def _as_sent(part: RunPart) -> list[str]:
    lines = []
    for what, text in (("the sequence", part.source), ("the light setups", part.setups)):
        if text:
            lines += [f"  {what} as sent:", *(f"  | {line}".rstrip() for line in text.splitlines())]
    return lines or ["  The sequence was not sent from this notebook."]


def _head(story: Story) -> str:
    if story.controller:
        return f"Sheet {story.number} of controller {story.controller}"
    return f"Sheet {story.number}, its journal not home yet"


def part_lines(part: RunPart, arithmetic: bool) -> list[str]:
    """One run of a sheet as lines of text."""
    title = part.title or "a run whose beginning is damaged"
    name = f", {part.name}" if part.name else ""
    batch = f", a batch of {part.sheets}" if part.sheets > 1 else ""
    ended = _HOW.get(part.ended, part.ended) if part.ended else "not ended"
    lines = [f"{title}{name}{batch}: {when_text(part.when)}; {ended}"]
    lines += [f"  {line}" for line in columns(RUN_HEAD, [run_cells(row) for row in part.rows])]
    if not part.name and part.sha:
        lines.append(
            f"  The sequence {part.sha[:8]} was not sent from this notebook: planned baths are not known."
        )
    lines += [f"  look: {advice.text}" for advice in aftermath.of_steps(part)]
    lines += [f"  fault: {advice.text}" for advice in aftermath.of_faults(part)]
    if arithmetic:
        lines += [f"  {line}" for line in part.arithmetic.splitlines()]
    return lines


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
    return "0" if abs(stops) < 0.005 else f"{'+' if stops > 0 else '−'}{abs(stops):.2f} stop"


def _light_how(row: LightRow) -> str:
    how = _HOW.get(row.how, row.how or "")
    lamp = f"lamp on {row.gate_ms / 1000:.2f} s"
    if len(row.parts) > 1:
        lamp += " = " + " + ".join(f"{part / 1000:.2f}" for part in row.parts)
    return f"{how}; {lamp}" if row.gate_ms else how


def _as_dict(story: Story) -> dict[str, object]:
    return {
        "sheet": story.number,
        "controller": story.controller,
        "epoch": story.epoch,
        "runs": [
            asdict(part)
            | {"rows": [{"light": isinstance(row, LightRow)} | asdict(row) for row in part.rows]}
            | {"aftermath": [asdict(advice) for advice in aftermath.of_run(part)]}
            for part in story.runs
        ],
    }
