"""The sheet ledger: honest stories pass; each of its rules is killed by a story with one fault in it."""

import ast
import inspect
import sys

import pytest
from tests.judges.kills import KILLS, at_light
from tests.judges.story import LIGHT, Story

from footlight.bench import display_text, sheet_ledger, sheet_lights, sheet_numbers, sheet_progress
from footlight.bench.referee import BreachError

_PARTS = (sheet_ledger, sheet_lights, sheet_numbers, sheet_progress)
_TELL = ("_breach", "_suspect", "_explain")


@pytest.fixture(autouse=True)
def words(monkeypatch: pytest.MonkeyPatch) -> None:
    """In a story a frame is its text."""
    monkeypatch.setattr(display_text, "frame_text", lambda data: data)


def ends(story: Story) -> None:
    """Nothing is left that a later event would have to explain."""
    story.wait(5000)
    story.ledger.finish()


def print_whole() -> Story:
    return at_light().whole().show("FIX").tap().bath(3).record("end", how="whole").show("DONE", "NR 1")


def stopped_and_resumed() -> Story:
    story = at_light().offer().show("2.4S").tap().burn(1000).gave(1000, "held").offer(1400).show("OFF 1.4")
    return story.tap().burn(1400).gave(1400, "whole").show("FIX")


def cut_and_given_what_is_missing() -> Story:
    story = at_light().offer().tap().burn(1000).gave(1000, "held").offer(1400).cut(LIGHT, 1000, 2400)
    story.show("CUT", "STEP2", "LIGHT", "1.0-2.4").hold().offer(1400)
    return story.show("1.4S").tap().burn(1400).gave(1400, "whole").show("FIX")


def cut_in_the_light_and_given_up_to_the_plan() -> Story:
    story = at_light().offer().tap().burn(900).cut(LIGHT, 0, 2400).show("CUT", "STEP2", "LIGHT", "0.0-2.4")
    story.hold().show("NONE").tap().show("MAX 2.4").hold().offer(2400).show(
        "HAD", "0.0-2.4", "BLACKS", "2.4S"
    )
    return story.tap().burn(2400).gave(2400, "whole").show("FIX")


def cut_at_rest() -> Story:
    story = at_light().whole().show("FIX").wait(5000).cut(3).show("CUT", "STEP3")
    return story.hold().show("FIX").tap().bath(3)


def a_person_goes_back() -> Story:
    story = at_light().whole().show("FIX").hold().show("STAY?").tap().show("BACK?").hold()
    return story.offer().show("BLACKS").tap().burn(2400).gave(2400, "whole").show("FIX")


def a_person_goes_back_after_a_cut() -> Story:
    story = at_light().whole().show("FIX").cut(3).show("CUT", "STEP3").hold().show("FIX").hold().show("STAY?")
    story.tap().show("BACK?").hold().record("move", step=LIGHT).offer().show(
        "HAD", "2.4-2.4", "BLACKS", "2.4S"
    )
    story.tap().burn(1000).cut(LIGHT, 2400, 4800).show("CUT", "STEP2", "BLACKS", "2.4-4.8", "0:05", "CUT")
    story.hold().show("NONE").tap().show("MAX 2.4").hold().offer(2400).show("HAD", "2.4-4.8")
    return story.tap().burn(2400).gave(2400, "whole").show("FIX")


def a_person_takes_the_sheet_again() -> Story:
    story = print_whole().tap().show("PRINT").hold().show("NR 2").tap().show("NR 1").hold().arm(1, run=2)
    return story.show("PENCIL", "1").tap().bath(1).whole().show("FIX")


def a_counted_light_of_a_lamp_that_is_low() -> Story:
    story = at_light().learn().offer().show("BLACKS", "2.4S").tap().burn(2700)
    return story.gave(2400, "whole", gate_ms=2750).dose(2398).show("FIX")


def a_counted_light_stopped_and_resumed() -> Story:
    story = at_light().learn().offer().show("BLACKS", "2.4S").tap().burn(1000)
    story.gave(900, "held", gate_ms=1050).dose(900).offer(1500).show("OFF 1.5").tap().burn(1700)
    return story.gave(1500, "whole", gate_ms=1750).dose(1495).show("FIX")


def a_dark_lamp() -> Story:
    story = at_light().offer().tap().burn(50).gave(0, "broken", gate_ms=0).show("NOLAMP", "").hold()
    return story.offer().show("2.4S").tap().burn(2400).gave(2400, "whole").show("FIX")


def a_gate_that_does_not_report() -> Story:
    return at_light().offer().tap().burn(1500).wait(1000).show("GATE").hold().gave(2400, "whole").show("FIX")


def a_journal_that_is_lost() -> Story:
    story = at_light().offer().tap().burn(1000).gave(1000, "held").offer(1400)
    return story.cut(LIGHT, 0, 0).show("LOST", "", "LOST")


def flashed_sheets_are_printed() -> Story:
    story = Story().show("FLASH").hold().arm(1, sheets=2).tap().whole().whole(sheet=2)
    story.record("end", how="whole")
    return story.pick(1).pick(2).show("PRINT").hold().show("NR 3").hold().arm(3)


def a_new_memory() -> Story:
    story = print_whole().lose_power().show("FRESH")
    story.send()
    return story.pick(1).tap().bath(1).whole().show("FIX")


def the_set_up_light() -> Story:
    story = Story().show("FOCUS").hold()
    story.record("intent", run=0, step=0, sheet=0, light_ms=9, gate_ms=9, sha="")
    return story.tap().burn(3000).record("focus", gate_ms=3050).show("NO", "PAPER")


def an_unknown_program() -> Story:
    return Story(is_sent=False).pick(1).tap().bath(1).whole().show("FIX")


HONEST = (
    print_whole,
    stopped_and_resumed,
    cut_and_given_what_is_missing,
    cut_in_the_light_and_given_up_to_the_plan,
    cut_at_rest,
    a_person_goes_back,
    a_person_goes_back_after_a_cut,
    a_person_takes_the_sheet_again,
    a_counted_light_of_a_lamp_that_is_low,
    a_counted_light_stopped_and_resumed,
    a_dark_lamp,
    a_gate_that_does_not_report,
    a_journal_that_is_lost,
    flashed_sheets_are_printed,
    a_new_memory,
    the_set_up_light,
    an_unknown_program,
)


@pytest.mark.parametrize("story", HONEST)
def test_an_honest_story_passes(story):
    ends(story())


@pytest.mark.parametrize("name", KILLS)
def test_a_planted_fault_is_caught(name: str):
    story, message = KILLS[name]
    with pytest.raises(BreachError) as caught:
        ends(story())
    assert message in str(caught.value)


def test_every_rule_is_killed(monkeypatch: pytest.MonkeyPatch):
    """Each call that tells of a breach has told one in a story above: a rule that nothing kills is none."""
    hit: set[tuple[str, int]] = set()
    for part, name in ((sheet_ledger.SheetLedger, "_breach"), (sheet_ledger.SheetLedger, "_suspect")):
        monkeypatch.setattr(part, name, _noting(getattr(part, name), hit))
    monkeypatch.setattr(sheet_lights.SheetLights, "_explain", _noting(sheet_lights.SheetLights._explain, hit))
    for story, _ in KILLS.values():
        with pytest.raises(BreachError):
            ends(story())
    calls = [(part.__name__, lines) for part in _PARTS for lines in _calls(part)]
    assert len(calls) > 20
    assert [call for call in calls if not any((call[0], line) in hit for line in call[1])] == []


def _noting(method, hit):
    def noting(*args):
        caller = sys._getframe(1)
        hit.add((caller.f_globals["__name__"], caller.f_lineno))
        return method(*args)

    return noting


def _calls(part):
    """The lines of each call that tells of a breach."""
    for node in ast.walk(ast.parse(inspect.getsource(part))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in _TELL:
            yield range(node.lineno, (node.end_lineno or node.lineno) + 1)
