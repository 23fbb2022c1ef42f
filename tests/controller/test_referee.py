"""The referee catches each planted breach, and finds nothing in a good light."""

import json
from pathlib import Path

import pytest
from tests.controller.stage import INTERPRETERS, status, switched_on

from footlight.bench import Bench, Event
from footlight.bench.referee import BreachError, watch
from footlight_core import states as st

ON_FLASH = "micropython" in INTERPRETERS


def record(ms: float, kind: str, number: int, **fields: object) -> Event:
    """A record that became durable."""
    return Event(round(ms * 1000), "record", json.dumps({"k": kind, "n": number, "t": 0} | fields))


def at(ms: float, kind: str, text: str) -> Event:
    return Event(round(ms * 1000), kind, text)


def tap(ms: float) -> list[Event]:
    """A press of 100 ms that ends then."""
    return [at(ms - 100, "pedal", "1 0"), at(ms, "pedal", "0 1")]


def light(ms: float, span_ms: float) -> list[Event]:
    """Gate and pump for a while."""
    return [
        at(t_ms, kind, level) for t_ms, level in ((ms, "1"), (ms + span_ms, "0")) for kind in ("gate", "pump")
    ]


PLACE = {"run": 1, "step": 1, "sheet": 1}
BOOT = record(0, "boot", 1)
GUARDED = [at(0, "watchdog", "1"), at(0, "frame", "00"), at(0, "keyboard", "0")]
ARM = record(300, "arm", 2, slot=1, sha="ab", title="T", sheets=1, **PLACE)
INTENT = record(300, "intent", 3, gate_ms=1000, light_ms=950, sha="ab", **PLACE)
READY = [BOOT, *GUARDED, *tap(300), ARM, INTENT]
GAVE = {"gate_ms": 1000, "light_ms": 950, "left_ms": 0, "how": "whole"} | PLACE
LIT = [*READY, *tap(1000), *light(1030, 1000)]
WELL = [*LIT, record(2030, "gave", 4, **GAVE)]
HELD = [
    record(1050, "gave", 4, **GAVE | {"gate_ms": 10, "light_ms": 0, "left_ms": 950, "how": "held"}),
    record(1050, "intent", 5, gate_ms=1000, light_ms=950, sha="ab", **PLACE),
]
FAULT = record(500, "fault", 4, code=7, **PLACE)
# A light that was counted, and another one that is longer than planned.
LEVELS = {"least": 900, "mean": 900, "most": 900} | PLACE | {"step": 2}
MEASURED = record(2030, "dose", 5, dose_ms=950, how="counted", **LEVELS | {"step": 1})
AGAIN = [
    record(3000, "intent", 6, gate_ms=1000, light_ms=950, sha="ab", **PLACE | {"step": 2}),
    *tap(7000),
    *light(7030, 1150),
]
GAVE_AGAIN = record(9000, "gave", 7, **GAVE | {"gate_ms": 1150, "step": 2})
COUNTED = [*LIT, record(2030, "gave", 4, **GAVE), MEASURED, *AGAIN, GAVE_AGAIN]
BREACHES = {
    "I1 keyboard": [BOOT, *GUARDED[:2], *tap(300), ARM, INTENT, *tap(1000), *light(1030, 1000)],
    "I1 watchdog goes": [*READY, *tap(1000), *light(1030, 1000)[:2], at(1100, "watchdog", "0")],
    "I2 no foot": [*READY, *tap(700), *light(1030, 1000)],
    "I2 twice under one intent": [*LIT, *tap(2500), *light(2530, 100)],
    "I2 foot still down": [*READY, *tap(1000), at(1020, "pedal", "1 0"), *light(1030, 1000)],
    "I3 too long": [*READY, *tap(1000), *light(1030, 1002)],
    "I4 at the prompt": [*LIT[:-2], at(1500, "prompt", "left")],
    "I4 an exception": [*LIT[:-2], at(1500, "fell", "ValueError")],
    "I4 a leg at the prompt": [BOOT, at(400, "leg", "1"), at(401, "prompt", "left")],
    "I4 a leg stays on": [BOOT, at(400, "leg", "1"), *tap(600), *tap(900)],
    "I4 a leg in a run": [*READY, at(1030, "leg", "1"), at(1032, "leg", "0")],
    "I4 pump alone": [*READY, at(1030, "pump", "1")],
    "I6 ended by nobody": [
        *READY,
        *tap(1000),
        *light(1030, 400),
        record(1500, "gave", 4, **GAVE | {"gate_ms": 400}),
    ],
    "I22 longer, by seconds": [*COUNTED, record(9000, "dose", 8, dose_ms=1100, how="level", **LEVELS)],
    "I14 more than was counted": [
        *LIT,
        record(2030, "gave", 4, **GAVE),
        MEASURED,
        *AGAIN,
        GAVE_AGAIN,
        record(9000, "dose", 8, dose_ms=700, how="counted", **LEVELS),
    ],
    "I7 no intent": [*READY[:-1], *tap(1000), *light(1030, 1000)],
    "I7 written after the release": [*READY, *tap(1000), at(1010, "program", "1 0 256"), *light(1030, 1000)],
    "I8 a gap": [*READY, record(400, "end", 5, how="left", **PLACE)],
    "I8 unanswered": [*READY, record(400, "intent", 4, gate_ms=1000, light_ms=950, sha="ab", **PLACE)],
    "I8 no bounds": [*LIT, record(3000, "boot", 4), record(3000, "begin", 5, **PLACE)],
    "I8 wrong bounds": [
        *LIT,
        record(3000, "boot", 4),
        record(3000, "cut", 5, least_ms=0, most_ms=500, **PLACE),
    ],
    "I9 written": [*LIT[:-2], at(1500, "erase", "7")],
    "I10 another hash": [*READY[:-1], record(300, "intent", 3, gate_ms=9, light_ms=9, sha="cd", **PLACE)],
    "I10 never committed": [at(0, "format", ""), *READY],
    "I11 twice on one press": [*READY, *tap(1000), *light(1030, 10), *HELD, *light(1100, 900)],
    "I12 unarmed": [BOOT, *GUARDED, ARM, INTENT, *tap(1000), *light(1030, 1000)],
    "I13 lit in a fault": [*READY, FAULT, *tap(1000), *light(1030, 1000)],
    "I13 left by itself": [*READY, FAULT, record(3000, "cleared", 5, code=7, **PLACE)],
    "I14 another time": [
        *LIT,
        record(2030, "gave", 4, **GAVE | {"gate_ms": 900, "light_ms": 850, "left_ms": 100}),
    ],
    "I14 dead time": [*LIT, record(2030, "gave", 4, **GAVE | {"light_ms": 1000})],
    "I15 nothing moves": [*READY, at(9000, "tone", "0")],
    "I16 in a fault": [*READY, FAULT, at(600, "white", "1"), at(700, "tone", "0")],
    "I16 before a step": [BOOT, *GUARDED, at(600, "white", "1"), at(700, "tone", "0")],
}


def judged(folder: Path, events: list[Event]) -> list[str]:
    bench = Bench(folder)
    bench.switch_on()
    bench.events.clear()
    referee = watch(bench, "seed 5", stops=False)
    for event in events:
        referee.hear(event)
    bench.cut_power()
    return referee.broken


@pytest.mark.parametrize("name", BREACHES)
def test_a_breach_is_caught(tmp_path: Path, name: str):
    found = {line.split(": ")[1] for line in judged(tmp_path, BREACHES[name])}
    assert name.split(" ")[0] in found


def test_a_good_light_is_not(tmp_path: Path):
    assert judged(tmp_path, WELL) == []


def pause(ms: float, span_ms: float) -> Event:
    """The processor stands still."""
    return at(ms, "pause", str(round(span_ms * 1000)))


def late(*pauses: Event) -> list[Event]:
    """A light that answers its release 330 ms later."""
    return [*READY, *sorted([*tap(1000), *pauses], key=lambda event: event.t_us), *light(1330, 1000)]


def test_a_late_light_is_excused_by_nothing(tmp_path: Path):
    for name, pauses in (("a", ()), ("b", (pause(950, 300),)), ("c", (pause(1_010, 300),))):
        assert judged(tmp_path / name, late(*pauses))[0].startswith("1330 ms: I2")


def test_leaving_a_fault_is_judged_by_when_it_was_left(tmp_path: Path):
    """A full flash takes the record later; and a pause may come between, for leaving lights nothing."""
    left = PLACE | {"code": 7, "t": 1_030}
    assert judged(tmp_path / "a", [*READY, FAULT, *tap(1_000), record(1_030, "cleared", 5, **left)]) == []
    later = [*READY, FAULT, *tap(1_000), *tap(1_900), record(2_600, "cleared", 5, **left)]
    assert judged(tmp_path / "b", later) == []
    paused = [*READY, FAULT, *tap(1_000), pause(1_010, 300)]
    assert judged(tmp_path / "c", [*paused, record(1_330, "cleared", 5, **left | {"t": 1_330})]) == []
    by_itself = [*READY, FAULT, *tap(1_000), record(2_600, "cleared", 5, **left | {"t": 2_600})]
    assert judged(tmp_path / "d", by_itself)[0].startswith("2600 ms: I13")


def test_a_record_of_the_start_that_was_written_late_is_no_new_life(tmp_path: Path):
    """The watchdog goes on running, whatever a worn flash writes when."""
    late = record(300, "boot", 1)
    assert judged(tmp_path, [*GUARDED, *tap(300), late, ARM, INTENT, *tap(1_000), *light(1_030, 1_000)]) == []


def test_each_start_is_a_new_life_also_when_it_wrote_nothing(tmp_path: Path):
    with Bench(tmp_path) as bench:
        bench.switch_on()
        bench.events.clear()
        referee = watch(bench, stops=False)
        for event in READY:
            referee.hear(event)
        bench.cut_power()
        bench.now_us = 900_000
        bench.switch_on()
        for event in (*tap(1_000), *light(1_030, 1_000)):
            referee.hear(event)
        assert {line.split(": ")[1] for line in referee.broken} >= {"I1", "I12"}


def test_a_lamp_that_stayed_dark_has_given_nothing(tmp_path: Path):
    broken = GAVE | {"gate_ms": 0, "light_ms": 0, "left_ms": 950, "how": "broken"}
    dark = [*READY, *tap(1000), *light(1030, 100), record(1130, "fault", 4, code=5, **PLACE)]
    cut = record(3000, "cut", 7, least_ms=0, most_ms=950, **PLACE)
    again = record(1130, "intent", 6, gate_ms=1000, light_ms=950, sha="ab", **PLACE)
    events = [*dark, record(1130, "gave", 5, **broken), again, record(3000, "boot", 7), cut]
    assert [line for line in judged(tmp_path, events) if "I14" in line or "told as" in line] == []


@pytest.mark.parametrize(("span_ms", "is_believed"), [(100, True), (1_000, True), (2_000, False)])
def test_a_lamp_that_burnt_for_long_is_not_recorded_as_dark(tmp_path: Path, span_ms: int, is_believed: bool):
    """A second, for the processor may stand still; what went out later than that was seen to burn."""
    intent = record(300, "intent", 3, gate_ms=3_000, light_ms=2_950, sha="ab", **PLACE)
    fault = record(1_030 + span_ms, "fault", 4, code=st.NO_LIGHT, **PLACE)
    none = PLACE | {"gate_ms": 0, "light_ms": 0, "left_ms": 2_950, "how": "broken"}
    lit = [*READY[:-1], intent, *tap(1_000), *light(1_030, span_ms)]
    broken = judged(tmp_path, [*lit, fault, record(1_030 + span_ms, "gave", 5, **none)])
    assert (not [line for line in broken if ": I14: " in line]) == is_believed


def test_a_fault_on_top_does_not_hide_that_the_lamp_was_dark(tmp_path: Path):
    intent = record(300, "intent", 3, gate_ms=3_000, light_ms=2_950, sha="ab", **PLACE)
    faults = [
        record(1_130, "fault", 4 + i, code=code, **PLACE)
        for i, code in enumerate((st.NO_LIGHT, st.NO_RECORD))
    ]
    none = record(1_130, "gave", 6, **PLACE, gate_ms=0, light_ms=0, left_ms=2_950, how="broken")
    broken = judged(tmp_path, [*READY[:-1], intent, *tap(1_000), *light(1_030, 100), *faults, none])
    assert not [line for line in broken if ": I14: " in line]


def test_a_controller_without_power_is_not_silent(tmp_path: Path):
    """Also where the flash refuses the record of its next start: no power is no loop that stands still."""
    for name, blocks in (("kept", ()), ("refused", range(2, 352))):
        with switched_on(tmp_path / name) as bench:
            referee = watch(bench, stops=False)
            bench.wear_out(*blocks)
            bench.cut_power()
            bench.run_for(3_600_000)
            bench.switch_on()
            bench.run_for(5_000)
            assert status(bench)["fault"] == (st.NO_RECORD if blocks and ON_FLASH else 0)
            assert referee.broken == []


def test_gestures_before_a_start_that_could_not_be_recorded_light_nothing(tmp_path: Path):
    """I12 begins anew with the life of the controller, not with a record that a worn flash refuses."""
    with Bench(tmp_path) as bench:
        bench.switch_on()
        referee = watch(bench, stops=False)
        for event in READY:
            referee.hear(event)
        bench.cut_power()
        bench.switch_on()
        for event in [at(900, "watchdog", "1"), at(900, "keyboard", "0"), *tap(1000), *light(1030, 1000)]:
            referee.hear(event)
    assert [line for line in referee.broken if ": I12: " in line]


def test_a_light_after_a_message_and_no_foot(tmp_path: Path):
    with Bench(tmp_path) as bench:
        bench.switch_on()
        referee = watch(bench, stops=False)
        for ear in bench.ears:
            ear(1_020_000, b"lamp on")
        for event in [*READY, *tap(700), *light(1030, 1000)]:
            referee.hear(event)
    assert [line for line in referee.broken if ": I5: " in line]


def test_a_breach_stops_the_run_and_says_what_replays_it(tmp_path: Path):
    with Bench(tmp_path) as bench:
        referee = watch(bench, "seed 5")
        with pytest.raises(BreachError, match=r"^1030 ms: I4: .*\(replay: seed 5\)$"):
            referee.hear(at(1030, "pump", "1"))


def test_every_invariant_has_been_seen_to_fail():
    assert {name.split(" ")[0] for name in BREACHES} == {f"I{n}" for n in (*range(1, 17), 22)} - {
        "I5"
    }  # above
