"""The lamp over the bench's state machine: what is put, in which order, and what comes back.

Design, section 4: start is init, drain, put, active; stop is one word; the remainder is read only when it is
there; a word that is queued is never a further exposure. The fault model's I3 and I4.
"""

from typing import Any

import pytest
from tests.controller.in_process.box import GATE, PUMP, REST, Box

ON, OFF = "1", "0"


@pytest.fixture
def lamp(box: Box) -> Any:
    made = box.controller("lamp").Lamp(box.rp2, box.machine.Pin, GATE, PUMP, REST)
    assert gates(box) == [(0, OFF)], "the first thing that it does"
    return made


def gates(box: Box) -> list[tuple[int, str]]:
    return [(at_ms, level) for at_ms, _, level in box.events("gate")]


def test_dark_from_the_start(box: Box, lamp: Any):
    assert (box.level(GATE), box.level(PUMP), lamp.lit()) == (0, 0, False)
    assert lamp.read_gate_ms() == -1
    lamp.stop()
    box.wait_ms(1000)
    assert gates(box) == [], "a stop with nothing to stop"


def test_an_exposure_of_its_time(box: Box, lamp: Any):
    lamp.start(250)
    assert lamp.lit() and box.level(GATE) == box.level(PUMP) == 1
    assert lamp.read_gate_ms() == -1, "nothing to read while it is lit, and no waiting for it"
    box.wait_ms(300)
    assert gates(box) == [(0, ON), (250, OFF)]
    assert box.level(PUMP) == 0
    assert lamp.lit(), "until its end was read"
    assert lamp.read_gate_ms() == 250
    assert not lamp.lit()
    assert lamp.read_gate_ms() == 250, "whoever lost it asks again"


@pytest.mark.parametrize("gate_ms", [0, -1, 167_001])
def test_a_time_that_cannot_be_counted_is_no_light(box: Box, lamp: Any, gate_ms: int):
    with pytest.raises(ValueError, match="allowed 1 to 167000"):
        lamp.start(gate_ms)
    box.wait_ms(10)
    assert gates(box) == [] and not lamp.lit()


@pytest.mark.parametrize("gate_ms", [1, 167_000])
def test_shortest_and_longest(box: Box, lamp: Any, gate_ms: int):
    lamp.start(gate_ms)
    box.wait_ms(gate_ms + 1)
    assert gates(box) == [(0, ON), (gate_ms, OFF)]
    assert lamp.read_gate_ms() == gate_ms


def test_a_stop_leaves_the_remainder(box: Box, lamp: Any):
    lamp.start(1000)
    box.wait_ms(400)
    lamp.stop()
    box.wait_ms(2000)
    assert gates(box) == [(0, ON), (400, OFF)]
    assert lamp.read_gate_ms() == 400


def test_the_pedal_ends_it_without_the_processor(box: Box, lamp: Any):
    lamp.start(1000)
    box.wait_ms(400)
    box.foot(True)
    box.wait_ms(2000)
    assert gates(box) == [(0, ON), (400, OFF)]
    assert lamp.read_gate_ms() == 400


def test_a_pedal_that_is_down_gives_no_edge_at_all(box: Box, lamp: Any):
    box.foot(True)
    lamp.start(1000)
    box.foot(False)
    box.wait_ms(2000)
    assert gates(box) == []
    assert lamp.read_gate_ms() == 0


def test_stops_after_the_end_are_no_further_exposure(box: Box, lamp: Any):
    lamp.stop()
    lamp.start(100)
    box.wait_ms(200)
    for _ in range(6):
        # The state machine's queue holds four words: more would wait for ever.
        lamp.stop()
    box.wait_ms(2000)
    assert gates(box) == [(0, ON), (100, OFF)]
    assert lamp.read_gate_ms() == 100
    lamp.stop()
    lamp.start(300)
    box.wait_ms(400)
    assert gates(box) == [(2200, ON), (2500, OFF)], "the stale word has not ended the next one"
    assert lamp.read_gate_ms() == 300


def test_a_counted_light_ends_with_its_countdown_or_at_its_cap(box: Box, lamp: Any):
    lamp.start(1000, 400)
    box.wait_ms(100)
    lamp.end_in(15_000)
    box.wait_ms(400)
    assert gates(box) == [(0, ON), (250, OFF)] and lamp.read_gate_ms() == 250
    lamp.end_in(100)
    lamp.start(300, 200)
    box.wait_ms(100)
    lamp.end_in(90_000)
    box.wait_ms(1000)
    assert gates(box) == [(500, ON), (800, OFF)], "the lamp's own count is the cap"
    lamp.start(300, 200)
    box.wait_ms(400)
    for _ in range(6):
        lamp.end_in(5)
    assert gates(box) == [(1600, ON), (1800, OFF)] and lamp.read_gate_ms() == 200


def test_an_end_that_was_never_read_is_not_told_of_the_next(box: Box, lamp: Any):
    lamp.start(100)
    box.wait_ms(200)
    lamp.start(700)
    box.wait_ms(100)
    assert lamp.read_gate_ms() == -1
    box.wait_ms(700)
    assert lamp.read_gate_ms() == 700


def test_dark_in_mid_light(box: Box, lamp: Any):
    lamp.start(1000)
    box.wait_ms(400)
    lamp.dark()
    assert (box.level(GATE), box.level(PUMP), lamp.lit()) == (0, 0, False)
    box.wait_ms(2000)
    assert gates(box) == [(0, ON), (400, OFF)]
    assert lamp.read_gate_ms() == -1, "what was under way is lost"


def test_the_order_of_a_start(box: Box, monkeypatch: pytest.MonkeyPatch):
    """Standing still, pins low, both queues drained, and only then the count and the light."""
    calls: list[str] = []
    real = box.rp2.StateMachine
    for name in ("active", "init", "exec", "get", "put"):
        monkeypatch.setattr(real, name, _noted(calls, name, getattr(real, name)))
    lamp = box.controller("lamp").Lamp(box.rp2, box.machine.Pin, GATE, PUMP, REST)
    calls.clear()
    lamp.stop()
    assert calls == [], "no word for a state machine that would not take it"
    lamp.start(100)
    box.wait_ms(200)
    lamp.stop()
    calls.clear()
    lamp.start(50)
    assert calls == ["active 0", "init", "exec pull(noblock)", "get", "put 5000", "active 1"]


def _noted(calls: list[str], name: str, method: Any) -> Any:
    def noting(machine: Any, *values: Any, **more: Any) -> Any:
        words = [str(value) for value in values if isinstance(value, int | str)]
        if machine.number == 0:
            calls.append(" ".join([name, *words]))
        return method(machine, *values, **more)

    return noting


def test_a_light_half_begun_is_taken_back(box: Box, lamp: Any, monkeypatch: pytest.MonkeyPatch):
    def refuse(word: int) -> None:
        raise OSError(f"{word} is not taken")

    monkeypatch.setattr(lamp._sm, "put", refuse)
    with pytest.raises(OSError, match="not taken"):
        lamp.start(250)
    assert (box.level(GATE), box.level(PUMP), lamp.lit()) == (0, 0, False)
    assert lamp.read_gate_ms() == -1, "no end of it is waited for"
