"""One sheet as lines of text and as JSON: planned against given, run by run, and its whole life."""

from collections.abc import Iterator
from dataclasses import asdict

from footlight.actions.show_sheet import ShownSheet
from footlight.notebook.sheets.by_number import LightRow, RunPart, Story
from footlight.report import aftermath
from footlight.views import life
from footlight.views.run_table import part_lines


def lines(
    shown: ShownSheet, arithmetic: bool = False, as_sent: bool = False, width: int | None = None
) -> Iterator[str]:
    """Everything about a sheet. arithmetic: also how planned times came about; as_sent: also the files."""
    yield head(shown.story)
    yield from life.before(shown.life)
    for part in shown.story.runs:
        yield from ["", *part_lines(part, arithmetic, width), *life.baths_of(shown.life, part.run)]
        yield from files_of(part) if as_sent else []
    rest = list(life.after(shown.life))
    yield from ["", *rest] if rest else []


def files_of(part: RunPart) -> list[str]:
    """Sequence and light setups as they were when sent."""
    lines = []
    for what, text in (("the sequence", part.source), ("the light setups", part.setups)):
        if text:
            lines += [f"  {what} as sent:", *(f"  | {line}".rstrip() for line in text.splitlines())]
    return lines or ["  The sequence was not sent from this notebook."]


def head(story: Story) -> str:
    """Whose sheet it is."""
    if story.controller:
        return f"Sheet {story.number} of controller {story.controller}"
    return f"Sheet {story.number}, its journal not home yet"


def as_dict(shown: ShownSheet) -> dict[str, object]:
    """For a script."""
    story, paper = shown.story, shown.life.paper
    return {
        "sheet": story.number,
        "controller": story.controller,
        "epoch": story.epoch,
        "runs": [_run_dict(part) for part in story.runs],
        **asdict(shown.life),
        "paper": asdict(paper) | {"left": paper.left} if paper else None,
    }


def _run_dict(part: RunPart) -> dict[str, object]:
    return asdict(part) | {
        "rows": [{"light": isinstance(row, LightRow)} | asdict(row) for row in part.rows],
        "aftermath": [asdict(advice) for advice in aftermath.of_run(part)],
    }
