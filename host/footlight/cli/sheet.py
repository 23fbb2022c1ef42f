"""`footlight sheet`: one sheet, planned against given."""

from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import json_option, notebook_option, print_json, replace_option, terminal_width
from footlight.cli.types import FROM_1
from footlight.notebook.sheets.by_number import LightRow, RunPart, Story
from footlight.report import aftermath
from footlight.views.run_table import part_lines

if TYPE_CHECKING:
    from footlight.notebook.sheets.life import Life


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
            from footlight.actions.draw_run import draw_last_run

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
        yield from [
            "",
            *part_lines(part, arithmetic, terminal_width()),
            *life_lines.baths_of(whole, part.run),
        ]
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
