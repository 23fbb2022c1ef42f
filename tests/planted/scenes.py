"""Short scenes on the bench, each run with the referee: what a planted bug must not survive.

A scene takes a folder for the flash and the options of the bench; it raises when something is wrong.
"""

import contextlib
import hashlib
from collections.abc import Callable
from pathlib import Path
from typing import Any

from tests.controller.stage import BATH, LAMP, LIGHT, armed, channel, gate_ms, program, records, send, status

from footlight.bench import Bench
from footlight.bench import events as ev
from footlight.bench.referee import watch
from footlight.link import journal
from footlight.link.errors import RefusedError
from footlight_core import states as st
from footlight_core import wire

BLEACH = {"kind": "judge", "name": "bleach", "show": "BLEACH", "least_ms": 3_000, "most_ms": 60_000}
PAUSE = {"kind": "pause", "name": "think", "show": "THINK"}
PRINT = program(LIGHT, BATH, BLEACH, LIGHT | {"time_ms": 2_000}, BATH | {"name": "fix", "white": 1})
Options = dict[str, Any]


@contextlib.contextmanager
def on_stage(folder: Path, options: Options, raw: dict[str, Any] = PRINT):
    """A controller with a run armed, judged by the referee."""
    with armed(folder, raw, **options) as bench:
        referee = watch(bench)
        yield bench
        referee.finish()


def state(bench: Bench) -> str:
    return status(bench)["state"]


def light(bench: Bench, span_ms: float) -> None:
    """A tap that starts a light, and so long."""
    bench.run_for(700)
    bench.tap()
    assert bench.lamp
    bench.run_for(span_ms)


def lit(bench: Bench, span_ms: float = 2_000) -> None:
    """The light under way, for so long."""
    light(bench, span_ms)
    assert bench.lamp


def a_whole_print(folder: Path, options: Options) -> None:
    """A light stopped and resumed, a bath, a judged step, a light, a bath with white light."""
    with on_stage(folder, options) as bench:
        lit(bench)
        bench.tap()
        assert state(bench) == "held"
        bench.run_for(700)
        bench.tap(80)
        bench.run_for(5_000)
        assert abs(sum(gate_ms(bench)) - 5_100) < 1
        _after_the_light(bench)
        assert bench.white and state(bench) == "done"
        assert [record["how"] for record in records(bench, "gave")] == ["held", "whole", "whole"]
        assert [record["step"] for record in records(bench, "begin")] == [2, 3, 5]
        assert abs(records(bench, "step")[0]["real_ms"] - 16_150) < 300
        assert len(bench.screen_rows()) == 8 and any(map(any, bench.screen_rows()))


def _after_the_light(bench: Bench) -> None:
    assert not bench.white
    for span_ms in (16_000, 4_000, 1_000, 3_000, 17_000):
        bench.tap()
        bench.run_for(span_ms)
    bench.tap()


def a_double_tap(folder: Path, options: Options) -> None:
    """Two quick taps are one start; a stop right after a start is a stop."""
    with on_stage(folder, options, program(BATH, BATH | {"name": "stop"}, LIGHT)) as bench:
        bench.run_for(700)
        bench.tap(80)
        bench.tap(80)
        bench.run_for(16_000)
        bench.tap(80)
        bench.tap(80)
        bench.run_for(1_000)
        assert [record["step"] for record in records(bench, "begin")] == [1, 2]
        assert records(bench, "step")[0]["how"] == "pedal"
    with on_stage(folder / "b", options) as bench:
        lit(bench, 120)
        bench.press()
        bench.run_for(50)
        assert not bench.lamp
        bench.release()
        bench.run_for(600)
        assert state(bench) == "held"


def a_frightened_foot(folder: Path, options: Options) -> None:
    """The foot stays down on a light: off, held, nothing abandoned; the dead time gave nothing."""
    with on_stage(folder, options) as bench:
        lit(bench)
        bench.hold(3_000)
        bench.run_for(1_000)
        assert state(bench) == "held"
        bench.run_for(700)
        bench.tap(40)
        bench.press()
        bench.run_for(200)
        bench.release()
        bench.run_for(1_000)
        assert state(bench) == "held"
        assert all(record["light_ms"] == max(0, record["gate_ms"] - 50) for record in records(bench, "gave"))


def bouncing(folder: Path, options: Options) -> None:
    """A press that bounces for some milliseconds, both ways, is one press; a touch of 10 ms is none."""
    short = BATH | {"time_ms": 5_000, "lift_ms": 4_000}
    with on_stage(folder, options, program(short, BATH, LIGHT)) as bench:
        bench.run_for(1_000)
        for _ in range(3):
            bench.press()
            bench.run_for(10)
            bench.release()
            bench.run_for(400)
        assert state(bench) == "ready"
        for down in (True, False, True, False, True):
            bench.contacts(down, not down)
            bench.run_for(3)
        bench.run_for(150)
        for down in (False, True, False, True, False):
            bench.contacts(down, not down)
            bench.run_for(3)
        bench.run_for(200)
        assert state(bench) == "bath"


def power_goes(folder: Path, options: Options) -> None:
    """Power is cut in a light: dark, the step and bounds told, nothing by itself, the same step again."""
    with on_stage(folder, options) as bench:
        _give_first_light(bench)
        for span_ms in (16_000, 4_000):
            bench.run_for(span_ms)
            bench.tap()
        bench.run_for(300)
        assert state(bench) == "ready"
        lit(bench, 1_000)
        bench.cut_power()
        bench.switch_on()
        bench.run_for(1_000)
        assert state(bench) == "broken" and not bench.white
        cut = records(bench, "cut")[-1]
        assert (cut["step"], cut["least_ms"], cut["most_ms"]) == (4, 0, 2_000)
        bench.tap()
        assert state(bench) == "broken"
        bench.hold()
        bench.run_for(700)
        assert (state(bench), status(bench)["step"]) == ("ready", 4)
        bench.tap()
        bench.run_for(3_000)


def _give_first_light(bench: Bench) -> None:
    light(bench, 6_000)
    bench.tap()  # begins the bath
    assert state(bench) == "bath"


def hanging(folder: Path, options: Options) -> None:
    """The processor hangs, lit and dark: the light ends on time, the watchdog bites, bounds are told."""
    with on_stage(folder, options) as bench:
        lit(bench)
        bench.hang()
        bench.run_for(6_500)
        assert not bench.lamp and records(bench, "boot")[-1]["reason"] == 1
        cut = records(bench, "cut")[-1]
        assert 1_900 <= cut["least_ms"] <= cut["most_ms"] == 5_000
        bench.hang()
        bench.run_for(8_000)
        assert len(records(bench, "boot")) == 3


def an_exception(folder: Path, options: Options) -> None:
    """Something raises in a light: dark at once, a fault that only a person leaves, then held."""
    with on_stage(folder, options) as bench:
        lit(bench)
        bench.tell_box("raise")
        bench.run_for(1)
        assert not bench.lamp
        bench.run_for(3_000)
        assert status(bench)["fault"] == st.EXCEPTION
        bench.tap()
        assert state(bench) == "fault"
        bench.hold()
        assert state(bench) == "held"
        bench.run_for(700)
        bench.tap()
        bench.run_for(5_000)
        assert sum(record["light_ms"] for record in records(bench, "gave")) == 5_000


def a_babbling_computer(folder: Path, options: Options) -> None:
    """Every message in every state, damaged frames, and one id twice: no light, nothing done twice."""
    with on_stage(folder, options) as bench:
        link = channel(bench)
        for _ in range(2):
            for message in wire.MESSAGES:
                _ask_wildly(bench, link, message)
            if not bench.lamp:
                lit(bench, 100)
        with contextlib.suppress(RefusedError):
            link.ask("clear", slot=1)
        assert bench.lamp and link.ask("slots")["slots"]
        bench.tap()
        _damaged(bench)


def _ask_wildly(bench: Bench, link: Any, message: tuple) -> None:
    if message[0] in ("hello", "maintain"):
        return
    params = {name: "0" * most if kind is str else max(least, 1) for name, kind, least, most in message[1]}
    refused = False
    try:
        link.ask(message[0], **params)
    except RefusedError:
        refused = True
    assert refused or not message[3], f"{message[0]} was answered in a run"
    bench.run_for(50)


def _damaged(bench: Bench) -> None:
    frame = wire.frame({"jsonrpc": "2.0", "id": "aaaa.1", "method": "hello", "params": {}})
    before = bench.stream().read(4_096)
    for spoilt in (frame.replace(b"hello", b"hallo"), frame[:-9] + frame[-9:].upper(), b"{}00000000\n"):
        if spoilt != frame:
            bench.stream().write(spoilt)
            bench.run_for(100)
            assert not bench.stream().read(4_096), before


def a_repeated_request(folder: Path, options: Options) -> None:
    """The same id is answered from memory; another session's same count is not."""
    with on_stage(folder, options) as bench:
        answers = [_exchange(bench, "aaaa", count) for count in (1, 2, 2, 3)]
        assert answers[1] == answers[2] != answers[3]
        assert _exchange(bench, "bbbb", 3) != answers[3]
        assert _exchange(bench, "bbbb", 1) != answers[0]


def _exchange(bench: Bench, nonce: str, count: int) -> bytes:
    hello = {"nonce": nonce, "least": 1, "most": 1, "schema": "00000000", "unix_s": 0}
    method, params = ("hello", hello) if count == 1 else ("records", {"first": count})
    message = {"jsonrpc": "2.0", "id": f"{nonce}.{count}", "method": method, "params": params}
    bench.stream().write(wire.frame(message))
    bench.run_for(50)
    return bench.stream().read(4_096)


def too_much_light(folder: Path, options: Options) -> None:
    """What the caps forbid is refused at the commit, and the lamp rests when its ten minutes are used up."""
    wrong = [
        program(LIGHT | {"time_ms": 60_000}),
        program(LIGHT | {"time_ms": 40_000}, lamps=[LAMP | {"window_ms": 30_000}]),
        program(LIGHT | {"auto": 1}),
        program(BATH, LIGHT | {"auto": 1}),
        program(LIGHT | {"lamp": 1}),
    ]
    hot = program(*[LIGHT | {"time_ms": 50_000}] * 4, lamps=[LAMP | {"window_ms": 120_000}])
    with on_stage(folder, options, hot) as bench:
        for _ in range(2):
            light(bench, 51_000)
        bench.tap()
        bench.run_for(1_000)
        assert not bench.lamp and len(gate_ms(bench)) == 2
    for number, raw in enumerate(wrong):
        with on_stage(folder / str(number), options) as bench:
            _leave(bench)
            with contextlib.suppress(RefusedError):
                send(bench, raw, 2)
                raise AssertionError(f"{raw} was taken")


def a_hot_lamp_and_no_power(folder: Path, options: Options) -> None:
    """The lamp's ten minutes go on over a power cut and over a watchdog's reset."""
    hot = program(*[LIGHT | {"time_ms": 50_000}] * 4, lamps=[LAMP | {"window_ms": 120_000}])
    with on_stage(folder, options, hot) as bench:
        for _ in range(2):
            light(bench, 51_000)
        for start_anew in (_cut, _bite):
            start_anew(bench)
            bench.run_for(2_000)
            bench.hold()
            bench.run_for(700)
            assert state(bench) == "ready"
            bench.tap()
            bench.run_for(1_000)
            assert not bench.lamp and len(gate_ms(bench)) == 2
        # The second light's record is some minutes old by now; what never could be known is not waited for.
        bench.run_for(600_000)
        light(bench, 51_000)
        assert len(gate_ms(bench)) == 3


def _cut(bench: Bench) -> None:
    bench.cut_power()
    bench.switch_on()


def _bite(bench: Bench) -> None:
    bench.hang()
    bench.run_for(8_000)


def _leave(bench: Bench) -> None:
    bench.hold()
    for _ in range(4):
        bench.run_for(700)
        bench.tap()
    bench.run_for(700)
    bench.hold()
    bench.run_for(700)
    assert state(bench) == "idle"


def bad_pedals(folder: Path, options: Options) -> None:
    """A wire that is off, a wet pedal, a stuck one: a fault each, and no light from any."""
    with on_stage(folder, options) as bench:
        lit(bench)
        bench.contacts(False, False)
        bench.run_for(400)
        assert not bench.lamp and status(bench)["fault"] == st.PEDAL_WIRE
        bench.release()
        bench.run_for(700)
        bench.hold()
        bench.run_for(700)
        for _ in range(20):
            bench.contacts(True, False)
            bench.run_for(35)
            bench.release()
            bench.run_for(35)
        assert status(bench)["fault"] == st.WET_PEDAL
    with on_stage(folder / "b", options) as bench:
        bench.press()
        bench.run_for(11_000)
        assert status(bench)["fault"] == st.STUCK_PEDAL


def bad_lamps(folder: Path, options: Options) -> None:
    """A welded relay forbids a run; a lamp that stays dark gave nothing."""
    with on_stage(folder, options) as bench:
        bench.sense_lamp(2.5, 40)
        light(bench, 6_000)
        bench.tap()
        bench.run_for(20_000)
        bench.cut_power()
        bench.sense(2.5)
        bench.switch_on()
        bench.run_for(1_500)
        assert status(bench)["fault"] == st.WELDED_RELAY
    with on_stage(folder / "b", options, program(LIGHT, LIGHT)) as bench:
        bench.sense_lamp(2.5, 40)
        light(bench, 6_000)
        bench.sense_lamp(0.0, 40)
        bench.tap()
        bench.run_for(1_000)
        assert status(bench)["fault"] == st.NO_LIGHT
        assert records(bench, "gave")[-1]["light_ms"] == 0


def the_journal(folder: Path, options: Options) -> None:
    """Records come home whole, go on over restarts, and only what was acknowledged may go."""
    with on_stage(folder, options) as bench:
        light(bench, 6_000)
        told = records(bench)
        for _ in range(2):
            bench.cut_power()
            bench.switch_on()
            bench.run_for(500)
        link = channel(bench)
        read = [entry.record for entry in journal.read(link, 1)]
        assert [record and record["n"] for record in read] == list(range(1, len(read) + 1))
        assert [record for record in read if record][: len(told)] == told
        assert status(bench)["found"] == 0
        _arm_again(bench)
        assert [record["run"] for record in records(bench, "arm")] == [1, 2]


def _arm_again(bench: Bench) -> None:
    bench.hold()
    bench.run_for(700)
    _leave(bench)
    for _ in range(2):
        bench.hold()
        bench.run_for(700)


def what_is_shown(folder: Path, options: Options) -> None:
    """Hash and number that are told are those of what was sent; noise in the display lasts a second."""
    with on_stage(folder, options) as bench:
        sha = hashlib.sha256(wire.dumps(PRINT).encode()).hexdigest()
        assert channel(bench).ask("slots")["slots"] == [[1, "PRINT", sha[:16]]]
        assert status(bench)["sha"] == records(bench, "arm")[-1]["sha"] == sha[:16]
        _leave(bench)
        bench.run_for(5_000)
        bench.panel.disturb()
        bench.run_for(1_100)
        assert not bench.panel.in_test
        rises = [event for event in bench.events if event.kind == ev.TONE and event.value]
        assert rises


SCENES: tuple[Callable[[Path, Options], None], ...] = (
    a_whole_print,
    a_frightened_foot,
    power_goes,
    an_exception,
    a_double_tap,
    bouncing,
    hanging,
    a_repeated_request,
    a_babbling_computer,
    what_is_shown,
    the_journal,
    bad_pedals,
    bad_lamps,
    too_much_light,
    a_hot_lamp_and_no_power,
)
