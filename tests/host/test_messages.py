"""No message, in any state, in any order, lights the lamp (invariant I5 of the fault model)."""

import json

from hypothesis import given
from hypothesis import strategies as some

from footlight_core import effects as fx
from footlight_core import program, wire
from footlight_core import states as st
from footlight_core.sequencer import Sequencer
from footlight_core.session import Session, schema

RAW = {
    "v": 1,
    "title": "PRINT",
    "name": "print",
    "lamps": [{"name": "LAMP", "cap_ms": 60_000, "window_ms": 300_000}],
    "steps": [
        {"kind": "light", "name": "one", "show": "ONE", "time_ms": 9000},
        {"kind": "bath", "name": "two", "show": "TWO", "time_ms": 9000},
        {"kind": "light", "name": "three", "show": "THREE", "time_ms": 9000},
    ],
}
SHA = "cd" * 32


class Shelf:
    def entries(self):
        return ((1, SHA, "PRINT"),)

    def load(self, slot, sha):
        return program.check(RAW)


class Store:
    """Accepts whatever the session lets through."""

    def begin(self, slot, sha256, length):
        return 0

    def put(self, slot, offset, data):
        return offset + len(data)

    def commit(self, slot, sha256):
        return "PRINT"

    def clear(self, slot):
        pass

    def slots(self):
        return []


class Journal:
    def state(self):
        return {"epoch": "0123abcd", "first": 1, "last": 3, "kept": 0}

    def line(self, number):
        return '{"n":1}'

    def keep_up_to(self, last):
        pass

    def note_date(self, unix_s):
        pass


names = some.sampled_from([message[0] for message in wire.MESSAGES] + ["light", "lamp_on", "", "gate"])
values = some.one_of(
    some.integers(-5, 1 << 41), some.text(max_size=20), some.booleans(), some.none(), some.just(SHA)
)
keys = some.sampled_from(
    ["slot", "sha256", "length", "offset", "data", "first", "last", "nonce", "least", "most", "schema"]
)
good_hello = some.just(("hello", {"nonce": "abcd", "least": 1, "most": 1, "schema": schema(), "unix_s": 0}))
messages = some.one_of(good_hello, some.tuples(names, some.dictionaries(keys, values, max_size=5)))
ids = some.one_of(some.just("abcd.1"), some.integers(0, 99).map(lambda n: f"abcd.{n}"), values)
# A foot brings the sequencer into some state; the events are the pedal's and the timers' own.
feet = some.lists(some.sampled_from([st.PRESS, st.SHORT, st.LONG, st.DUE, st.TROUBLE]), max_size=12)


def stand_somewhere(events: list[str]) -> Sequencer:
    """A sequencer after these events, three seconds apart."""
    seq = Sequencer(Shelf(), lambda loaded: 0)
    now_ms = 0
    for event in events:
        now_ms += 3000
        seq.handle(event, 3 if event == st.TROUBLE else now_ms - 100, now_ms)
        seq.effects.clear()
    return seq


@given(feet, some.lists(some.one_of(some.tuples(ids, messages), some.binary(max_size=60)), max_size=12))
def test_no_message_lights_the_lamp(events, sent):
    seq = stand_somewhere(events)
    before = (seq.state, seq.run.index, seq.run.left_ms, seq.white)
    session = Session(
        Store(), Journal(), {"id": "aa"}, dict, seq.is_idle, lambda: None, lambda sheet: sheet + 1, dict
    )
    for item in sent:
        if isinstance(item, bytes):
            session.handle(item)
            continue
        message_id, (name, params) = item
        request = {"jsonrpc": "2.0", "id": message_id, "method": name, "params": params}
        session.handle(wire.seal(json.dumps(request)))
    assert seq.effects.count == 0
    assert (seq.state, seq.run.index, seq.run.left_ms, seq.white) == before


def test_the_check_above_can_see_a_light():
    seq = stand_somewhere([st.LONG, st.LONG])
    seq.handle(st.SHORT, 20_000, 20_100)
    assert fx.LAMP_ON in seq.effects.kinds[: seq.effects.count]
