"""The watcher of the invariants catches each planted breach, and nothing in a good run."""

from pathlib import Path

import pytest
from tests.controller.invariants import Invariants

from footlight.bench import Bench, Event

INTENT = '{"gate_ms":100,"k":"intent","light_ms":100,"n":1}'
READY = [Event(0, "keyboard", "0"), Event(0, "watchdog", "1"), Event(0, "record", INTENT)]
BREACHES = {
    "I1": [Event(0, "watchdog", "1"), Event(0, "record", INTENT), Event(10_000, "gate", "1")],
    "I2": [*READY, Event(900_000, "gate", "1")],
    "I3": [*READY, Event(10_000, "gate", "1"), Event(112_000, "gate", "0")],
    "I7": [*READY[:2], Event(10_000, "gate", "1")],
    "I8": [*READY, Event(0, "record", '{"k":"end","n":3}')],
    "I9": [*READY, Event(10_000, "gate", "1"), Event(20_000, "erase", "7")],
    "I14": [
        *READY,
        Event(10_000, "gate", "1"),
        Event(60_000, "gate", "0"),
        Event(60_000, "record", '{"gate_ms":53,"k":"gave","n":2}'),
    ],
}


def judged(folder: Path, events: list[Event]) -> list[str]:
    watcher = Invariants(Bench(folder))
    for event in events:
        watcher.hear(event)
    return watcher.broken


@pytest.mark.parametrize("name", BREACHES)
def test_a_breach_is_caught(tmp_path: Path, name: str):
    assert [text.split(": ")[1] for text in judged(tmp_path, BREACHES[name])] == [name]


def test_a_good_light_is_not(tmp_path: Path):
    good = [*READY, Event(10_000, "gate", "1"), Event(110_000, "gate", "0")]
    assert judged(tmp_path, [*good, Event(110_000, "record", '{"gate_ms":100,"k":"gave","n":2}')]) == []
