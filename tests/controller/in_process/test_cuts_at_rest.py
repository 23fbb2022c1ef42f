"""The power fails in every state, at every pause, between any two kinds of step, once, twice and thrice.

On caaac8f 3949 of 18 432 single cuts in all triples of kinds offered too much light, told bounds that did not
hold what the sheet had had, or began a step again that had ended.
"""

import itertools
import random

import pytest
from tests.controller.in_process import rest

from footlight_core import recovery
from footlight_core.run import Run

PAUSES = range(11)  # things that a printer does before the cut
WRITES = range(4)  # and writes within the next one; 0 = at rest


@pytest.mark.parametrize("first", rest.KINDS)
def test_one_cut_at_every_pause_between_two_kinds(first: str):
    for seed, (second, events, writes) in enumerate(itertools.product(rest.KINDS, PAUSES, WRITES)):
        rest.carried_out((first, second), seed, ((events, writes),))


@pytest.mark.parametrize("cuts", (2, 3))
def test_several_cuts_in_one_run(cuts: int):
    for seed, kinds in enumerate(itertools.product(rest.KINDS, repeat=3)):
        dice = random.Random(seed)
        where = tuple((dice.randrange(5), dice.choice(WRITES)) for _ in range(cuts))
        rest.carried_out(kinds, seed, where)


def test_cuts_in_a_batch():
    for seed, (kind, events, writes) in enumerate(itertools.product(("light", "bath"), PAUSES, WRITES)):
        for cuts in (1, 2):
            rest.carried_out((kind, "light"), seed, ((events, writes),) * cuts, sheets=3)


def breaches() -> int:
    count = 0
    for seed, (events, writes) in enumerate(itertools.product(PAUSES, WRITES)):
        try:
            rest.carried_out(("bath", "light", "bath"), seed, ((events, writes),) * 2)
        except rest.RestError:
            count += 1
    return count


def test_the_judge_notices_what_was_wrong(monkeypatch: pytest.MonkeyPatch):
    assert breaches() == 0
    with monkeypatch.context() as spoilt:
        spoilt.setitem(recovery._READERS, "step", recovery._at)
        assert breaches(), "a bath that has ended is gone into again"
    with monkeypatch.context() as spoilt:
        spoilt.setattr(Run, "missing_ms", lambda run: run.step()["time_ms"])
        assert breaches(), "all of a light is offered once more"
    with monkeypatch.context() as spoilt:
        spoilt.setitem(recovery._READERS, "intent", recovery._at)
        assert breaches(), "bounds without the light that may have been given"
