"""What a printer is told after each ending of a light, a bath and a run, and after each fault.

On the real firmware, with the commands as they are typed: tests/system/test_after_the_worst.py.
"""

import runpy
import time
from pathlib import Path

import pytest
from tests.controller.stage import LIGHT_FIRST, armed, channel

from footlight.actions import collect_journal
from footlight.meanings import FAULTS
from footlight.notebook.dates import When
from footlight.notebook.sheets.by_number import BathRow, LightRow, RunPart
from footlight.report import aftermath
from footlight_core import states as st

DOCS = Path(__file__).parents[3] / "docs"


def light(least_ms: int, most_ms: int, how: str | None, planned_ms: int = 5_000) -> LightRow:
    left_ms = planned_ms - most_ms
    return LightRow(1, "second", 3, planned_ms, "sequence", least_ms, least_ms, most_ms, left_ms, how, [], {})


def part(
    *rows: BathRow | LightRow, ended: str | None = None, fault: int = 0, sha: str | None = "a"
) -> RunPart:
    return RunPart(1, "PRINT", None, sha, 1, When(None, None), ended, list(rows), [], "", fault=fault)


def said(one: RunPart) -> str:
    return "\n".join(advice.text for advice in aftermath.of_steps(one))


@pytest.mark.parametrize(
    ("one", "words"),
    [
        # Its end is not told yet, and the controller knows.
        (part(light(2_000, 5_000, None)), "2.00 s of 5.00 s given by the records so far; go by"),
        # It is told, and is no such case.
        (part(light(2_000, 2_000, "abandoned")), "3.00 s not; abandoned at the pedal"),
        (
            part(light(1_000, 4_000, "broken")),
            "cut off, 1.00 s to 4.00 s of 5.00 s given; add at most 1.00 s",
        ),
        (part(light(1_000, 5_000, "broken")), "it may have had all of it: give no more"),
        # Nobody will tell it any more: the run has gone on, has ended, or was forgotten.
        (
            part(light(2_000, 5_000, None), light(5_000, 5_000, "whole")),
            "its end is not recorded, 2.00 s to 5.00 s",
        ),
        (part(light(2_000, 5_000, None), ended="left"), "its end is not recorded"),
        (part(light(2_000, 5_000, None), sha=None), "its end is not recorded"),
        # It must not be given, whatever the controller offers.
        (part(light(0, 5_000, None), fault=st.LOST_GATE), "give no more"),
        (part(light(2_000, 5_000, None), fault=st.WELDED_RELAY), "give no more"),
        (part(sha=None), "the record of this run's beginning is lost"),
        (part(light(5_000, 5_000, "whole")), "the run has not ended in the journal"),
    ],
)
def test_of_the_steps(one: RunPart, words: str):
    assert words in said(one)
    assert ("go by the controller's display" in said(one)) == ("go by" in words)


def test_nothing_is_said_after_a_good_light(tmp_path: Path):
    with armed(tmp_path, LIGHT_FIRST) as bench:
        bench.tap()
        bench.run_for(6_000)
        bench.tap()
        for _ in range(3):
            bench.run_for(16_500)
            bench.tap()
        home = collect_journal.bring_home(channel(bench), tmp_path / "n.sqlite", int(time.time()))
    assert home.aftermath == {}, home.aftermath


def test_every_fault_has_its_aftermath():
    assert set(FAULTS) == {word for _, word in st.FAULTS}
    for code, word in st.FAULTS:
        advice = aftermath.of_fault(code)
        assert advice.happened == FAULTS[word].meaning and advice.do and advice.check
        assert "\n" not in advice.text


@pytest.mark.parametrize("name", ["controller.md", "faults.md"])
def test_the_pages_hold_the_table(name: str):
    made = runpy.run_path(str(DOCS / "make_faults.py"))
    assert (DOCS / name).read_text("utf-8") == made["page"](name), "run docs/make_faults.py"
