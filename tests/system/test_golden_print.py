"""The whole print of `tests/golden`, on the real firmware: the trace written by hand holds for gate, lamp,
white light, sounds and journal, each at its millisecond, on both interpreters."""

import json
import sys
from pathlib import Path

import pytest
from tests.controller.invariants import Invariants
from tests.controller.stage import INTERPRETERS, send

from footlight import meanings
from footlight.bench import Bench
from footlight.bench import events as ev
from footlight_core import gestures, records

GOLDEN = Path(__file__).parents[1] / "golden"
TAP_MS = 75
HOLD_MS = 1_500
CHATTER_MS = 30

sys.path.insert(0, str(Path(__file__).parents[2] / "firmware"))
from controller.sound import SOUNDS  # noqa: E402


def lines(name: str) -> list[list[str]]:
    """The words of each line of a golden file, without comments."""
    text = (GOLDEN / name).read_text(encoding="utf-8")
    return [line.split() for line in text.splitlines() if line.strip() and not line.startswith(";")]


def moves() -> list[tuple[int, bool]]:
    """The contacts that make the events of the golden feet: (ms, foot down)."""
    made: list[tuple[int, bool]] = []
    for ms, event, *argument in lines("print.feet"):
        up_ms = int(ms) - gestures.INTEGRATE_MS
        if event == "press":
            made.append((int(ms), True))
        elif event == "trouble":
            # A wet pedal: the ninth change within a second is one too many.
            changes = gestures.CHATTER_CHANGES + 1
            begin_ms = up_ms - (changes - 1) * CHATTER_MS
            made += [(begin_ms + index * CHATTER_MS, index % 2 == 0) for index in range(changes + 1)]
        else:
            if not argument:
                made.append((up_ms - (HOLD_MS if event == "long" else TAP_MS), True))
            made.append((up_ms, False))
    return made


@pytest.fixture(params=INTERPRETERS)
def printed(tmp_path: Path, request: pytest.FixtureRequest):
    """A bench on which the whole print was made, and its watcher."""
    with Bench(tmp_path, request.param) as bench:
        watcher = Invariants(bench)
        bench.switch_on()
        send(bench, json.loads((GOLDEN / "print.json").read_text(encoding="utf-8")))
        for ms, down in moves():
            bench.run_until(ms)
            bench.contacts(down, not down)
        bench.run_for(1_000)
        yield bench, watcher


def record_line(event: ev.Event) -> list[str]:
    record = json.loads(event.text)
    fields = records.fields_of(record["k"])
    assert fields
    shown = [str(record[field]) for field in fields if field not in ("sha", "slot", "title")]
    return [str(record["t"]), "#", record["k"], *shown]


def test_the_journal_is_the_golden_one(printed: tuple[Bench, Invariants]):
    bench, _ = printed
    told = [record_line(event) for event in bench.events if event.kind == ev.RECORD]
    assert told[1:] == [line for line in lines("print.trace") if line[1] == "#"]


def test_gate_and_white_light_are_the_golden_ones(printed: tuple[Bench, Invariants]):
    bench, watcher = printed
    wanted = []
    for ms, *words in lines("print.trace"):
        if words[:2] == ["lamp", "on"]:
            wanted.append((int(ms), "gate", 1))
        elif words == ["gate", "low"]:
            wanted.append((int(ms), "gate", 0))
        elif words[0] == "white":
            wanted.append((int(ms), "white", int(words[1])))
    told = [(e.t_ms, e.kind, e.value) for e in bench.events if e.kind in (ev.GATE, ev.WHITE) and e.t_us]
    assert told == wanted
    assert watcher.broken == []


def test_every_golden_sound_is_heard_when_it_should(printed: tuple[Bench, Invariants]):
    bench, _ = printed
    heard = {(event.t_ms, event.value) for event in bench.events if event.kind == ev.TONE}
    wanted = [(int(line[0]), line[1]) for line in lines("print.trace") if line[1] in meanings.SOUNDS]
    # Of two sounds at one moment the first is heard then, and the other after it.
    first = dict(reversed(wanted))
    assert len(first) > 30
    for ms, name in first.items():
        assert (ms, SOUNDS[meanings.SOUNDS.index(name)][0][0]) in heard, f"{name} at {ms} ms"
