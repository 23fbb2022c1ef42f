"""Which runs a bath is told of: those in which the sheet lay in a tray, a step judged by eye among them."""

import json
from pathlib import Path

import pytest
from tests.host.notebook.journals import BOOT, DATED, EVENING, SHA, SHORT_SHA, arm, write

from footlight.notebook.book import notebook
from footlight.notebook.journal import bring, programs
from footlight.notebook.sheets import by_number, life
from footlight.notebook.stock import baths
from footlight.notebook.stock.baths import Mixed


@pytest.mark.parametrize(
    ("kind", "is_told"), [("bath", True), ("judge", True), ("pause", False)], ids=["bath", "judge", "pause"]
)
def test_a_run_of_one_step(tmp_path: Path, kind: str, is_told: bool):
    """A run of one such step alone, while a bath stood in its tray."""
    times = {"bath": {"time_ms": 60_000}, "judge": {"least_ms": 1000, "most_ms": 90_000}}
    step = {"kind": kind, "name": "a step", "show": "STEP"} | times.get(kind, {})
    program = json.dumps({"v": 1, "title": "ONE", "name": "one step", "steps": [step]})
    rows = [BOOT, DATED, arm(10_000, 1, 41, title="ONE"), (72_000, "step", 1, 1, 41, 12_000, 60_000, "pedal")]
    with notebook(tmp_path / "notebook.sqlite", writing=True) as connection:
        programs.store(connection, programs.Sequence(SHA, "ONE", "one step", program, "", ""), EVENING)
        baths.mix(connection, [Mixed("clear", "", "", "clearing", 1000.0, EVENING - 3600)], EVENING)
        epoch = bring.epoch_id(connection, "box-1", "e1", EVENING)
        bring.bring(connection, epoch, write(*rows, (80_000, "end", 1, 41, "whole")), EVENING + 3600)
        story = by_number.story(connection, by_number.find(connection, 41))
        stood = life.of_sheet(connection, story).baths
    assert story.runs[0].sha == SHORT_SHA or story.runs[0].sha == SHA
    # The run began ten seconds after switching on, the bath an hour before that.
    assert [(bath.name, round(bath.age_s, -2)) for bath in stood] == ([("clear", 3600)] if is_told else [])
