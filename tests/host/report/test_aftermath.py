"""What a printer is told after each fault and each ending, from real runs on the bench, brought home."""

import time
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.controller.stage import INTERPRETERS, LIGHT, LIGHT_FIRST, armed, channel, program, status

from footlight.bench import Bench
from footlight.cli import homecoming, watching
from footlight.meanings import FAULTS
from footlight.report import aftermath
from footlight_core import states as st

TWO_LIGHTS = program(LIGHT, LIGHT)
PAGE = Path(__file__).parents[3] / "docs" / "faults.md"


def lit(bench: Bench) -> None:
    bench.run_for(700)
    bench.tap()
    bench.run_for(2_000)
    assert bench.lamp


def stuck(bench: Bench) -> None:
    bench.press()
    bench.run_for(12_000)
    bench.release()


def foot(bench: Bench) -> None:
    bench.press()
    bench.run_for(9_000)
    bench.release()


def wire(bench: Bench) -> None:
    lit(bench)
    bench.contacts(False, False)
    bench.run_for(400)
    bench.release()


def wet(bench: Bench) -> None:
    bench.run_for(1_000)
    for _ in range(20):
        bench.press()
        bench.run_for(35)
        bench.release()
        bench.run_for(35)


def welded(bench: Bench) -> None:
    lit(bench)
    bench.sense(2.5)
    bench.run_for(6_000)


def dead(bench: Bench) -> None:
    bench.sense_lamp(2.5, 40)
    lit(bench)
    bench.run_for(4_000)
    bench.sense_lamp(0.0, 40)
    bench.run_for(700)
    bench.tap()
    bench.run_for(500)


def worn(bench: Bench) -> None:
    lit(bench)
    bench.wear_out(*range(352))
    bench.tap()
    bench.run_for(200)
    # Until a record can be written again the computer cannot hear of it; the display says it.
    assert status(bench)["fault"] == st.NO_RECORD
    bench.wear_out()
    bench.hold()


def stray(bench: Bench) -> None:
    bench.run_for(2_000)
    bench.sense(2.5)
    bench.run_for(200)


def error(bench: Bench) -> None:
    lit(bench)
    bench.tell_box("raise")
    bench.run_for(200)


def whole(bench: Bench) -> None:
    lit(bench)
    bench.run_for(4_000)


def stopped(bench: Bench) -> None:
    lit(bench)
    bench.tap()


def abandoned(bench: Bench) -> None:
    stopped(bench)
    bench.run_for(700)
    bench.hold()


def cut(bench: Bench) -> None:
    lit(bench)
    bench.cut_power()
    bench.switch_on()


def hung(bench: Bench) -> None:
    lit(bench)
    bench.hang()
    bench.run_for(6_000)


def cut_in_a_bath(bench: Bench) -> None:
    whole(bench)
    bench.tap()
    bench.run_for(2_000)
    bench.cut_power()
    bench.switch_on()


# What was done -> (code of the fault, words that must be said).
RUNS: dict[Callable[[Bench], None], tuple[int, str]] = {
    stuck: (st.STUCK_PEDAL, "check what stands on the pedal"),
    foot: (st.LEANING_FOOT, "no foot rests"),
    wire: (st.PEDAL_WIRE, "check plug and cable"),
    wet: (st.WET_PEDAL, "dry the pedal"),
    dead: (st.NO_LIGHT, "check lamp, fuse and relay"),
    worn: (0, "change the board"),
    welded: (st.WELDED_RELAY, "count it as lost; unplug the lamp"),
    stray: (st.LIGHT_NOT_ASKED, "light that is not in the record"),
    error: (st.EXCEPTION, "tell the makers"),
    stopped: (0, "1.9"),
    abandoned: (0, "abandoned at the pedal"),
    cut: (0, "cut off, 0.00 s to 5.00 s of 5.00 s given; it may have had all of it"),
    hung: (0, "cut off, "),
    cut_in_a_bath: (0, "cut off, its time is not known"),
}


@pytest.mark.parametrize("done", RUNS, ids=lambda done: done.__name__)
def test_what_is_said_after(tmp_path: Path, done: Callable[[Bench], None]):
    code, words = RUNS[done]
    if done is worn and "micropython" not in INTERPRETERS:
        pytest.skip("no flash without MicroPython here")
    with armed(tmp_path, TWO_LIGHTS if done is dead else LIGHT_FIRST) as bench:
        done(bench)
        bench.run_for(1_500)
        said = status(bench)
        moment = watching.Moment(said | {"sha": ""}, [])
        watched = "; ".join(watching.lines_of(moment))
        home = homecoming.bring_home(channel(bench), tmp_path / "n.sqlite", int(time.time()))
    told = "\n".join(homecoming.lines(home))
    assert words in told and "sheet 1: " in told
    assert said["fault"] == code
    if code:
        advice = aftermath.of_fault(code)
        assert advice.do in watched and advice.check in watched and advice.text in told


def test_nothing_is_said_after_a_good_light(tmp_path: Path):
    with armed(tmp_path, LIGHT_FIRST) as bench:
        whole(bench)
        bench.tap()
        for _ in range(3):
            bench.run_for(16_500)
            bench.tap()
        home = homecoming.bring_home(channel(bench), tmp_path / "n.sqlite", int(time.time()))
    assert home.aftermath == {}, home.aftermath


def test_every_fault_has_its_aftermath():
    assert set(aftermath.AFTER_FAULT) == set(FAULTS) == {word for _, word in st.FAULTS}
    for code, word in st.FAULTS:
        advice = aftermath.of_fault(code)
        assert advice.happened == FAULTS[word] and advice.do and advice.check and "\n" not in advice.text


def test_the_page_holds_the_table():
    page = PAGE.read_text("utf-8")
    for word, (do, check) in aftermath.AFTER_FAULT.items():
        assert f"| `{word}` | {do} | {check} |" in page
