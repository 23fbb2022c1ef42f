"""Everything that can be wrong at the controller: the lamp goes off, a word says why, a person answers."""

from pathlib import Path

import pytest
from tests.controller.stage import (
    LIGHT_FIRST,
    SHORT_RUN,
    armed,
    gate_ms,
    program,
    records,
    send,
    state,
    status,
    switched_on,
)

from footlight.bench import Bench
from footlight_core import states as st

BRIGHT_V, DARK_V = 2.5, 0.0


def lit(tmp_path: Path) -> Bench:
    """Two seconds into the first light."""
    bench = armed(tmp_path, LIGHT_FIRST)
    bench.tap()
    bench.run_for(2_000)
    assert bench.lamp
    return bench


def fault(bench: Bench) -> int:
    """The code of the fault that is shown, 0 = none."""
    return status(bench)["fault"]


def test_a_broken_rest_wire_ends_the_light_and_is_a_fault(tmp_path: Path):
    with lit(tmp_path) as bench:
        bench.contacts(False, False)
        bench.run_for(400)
        assert not bench.gate and fault(bench) == st.PEDAL_WIRE
        bench.contacts(False, True)
        bench.run_for(1_000)
        assert state(bench) == "fault"
        bench.hold()
        assert state(bench) == "held"
        assert records(bench, "gave")[-1]["how"] in ("held", "broken")


def test_a_stuck_pedal_arms_nothing(tmp_path: Path):
    with switched_on(tmp_path) as bench:
        bench.press()
        bench.run_for(15_000)
        assert fault(bench) == st.STUCK_PEDAL
        assert len(records(bench, "fault")) == 2, "eight seconds are a leaning foot, ten are stuck"


def test_a_wet_pedal_is_a_fault_and_no_start(tmp_path: Path):
    with armed(tmp_path, LIGHT_FIRST) as bench:
        bench.run_for(1_000)
        for _ in range(20):
            bench.press()
            bench.run_for(35)
            bench.release()
            bench.run_for(35)
        assert fault(bench) == st.WET_PEDAL
        assert sum(gate_ms(bench)) < 200


def test_a_welded_relay_is_said_and_nothing_arms(tmp_path: Path):
    with lit(tmp_path) as bench:
        bench.sense(BRIGHT_V)
        bench.run_for(6_000)
        assert not bench.gate and fault(bench) == st.WELDED_RELAY
        bench.hold()
        bench.run_for(700)
        bench.sense(DARK_V)
        bench.run_for(700)
        assert fault(bench) == 0


def test_a_relay_that_was_welded_at_power_up(tmp_path: Path):
    with switched_on(tmp_path, LIGHT_FIRST) as bench:
        bench.cut_power()
        bench.sense(BRIGHT_V)
        bench.switch_on()
        bench.run_for(1_500)
        assert fault(bench) == st.WELDED_RELAY
        bench.hold()
        bench.run_for(700)
        bench.hold()
        bench.run_for(700)
        assert state(bench) == "idle"


def test_a_lamp_that_comes_on_by_itself(tmp_path: Path):
    with switched_on(tmp_path) as bench:
        bench.run_for(2_000)
        bench.sense(BRIGHT_V)
        bench.run_for(100)
        assert fault(bench) == st.LIGHT_NOT_ASKED


def test_a_dead_lamp_is_found_within_a_tenth_of_a_second_and_gave_nothing(tmp_path: Path):
    with armed(tmp_path, program(*LIGHT_FIRST["steps"][:1] * 2)) as bench:
        bench.sense_lamp(BRIGHT_V, 40)
        bench.tap()
        bench.run_for(6_500)
        assert fault(bench) == 0 and gate_ms(bench) == [5_050]
        bench.sense_lamp(DARK_V, 40)
        bench.tap()
        bench.run_for(1_000)
        assert fault(bench) == st.NO_LIGHT
        assert gate_ms(bench)[-1] <= 110
        gave = records(bench, "gave")[-1]
        assert (gave["light_ms"], gave["left_ms"], gave["how"]) == (0, 5_000, "broken")


def test_a_lamp_that_goes_out_in_mid_light_has_given_what_it_gave(tmp_path: Path):
    with armed(tmp_path, LIGHT_FIRST) as bench:
        bench.sense_lamp(BRIGHT_V, 40)
        bench.tap()
        bench.run_for(2_000)
        bench.sense(DARK_V)
        bench.run_for(500)
        assert fault(bench) == st.NO_LIGHT
        gave = records(bench, "gave")[-1]
        assert abs(gave["gate_ms"] - gate_ms(bench)[-1]) <= 1 and 1_800 < gave["gate_ms"] < 2_200
        assert (gave["left_ms"], gave["how"]) == (5_050 - gave["gate_ms"], "broken")


def test_without_a_sensor_no_lamp_is_missed(tmp_path: Path):
    with armed(tmp_path, LIGHT_FIRST) as bench:
        bench.tap()
        bench.run_for(6_000)
        assert fault(bench) == 0 and gate_ms(bench) == [5_050]


@pytest.mark.parametrize("interpreter", ["cpython", None])
def test_an_exception_while_lit_ends_the_light(tmp_path: Path, interpreter: str | None):
    with armed(tmp_path, LIGHT_FIRST, interpreter=interpreter) as bench:
        bench.tap()
        bench.run_for(2_000)
        bench.tell_box("raise")
        bench.run_for(500)
        assert not bench.gate and fault(bench) == st.EXCEPTION
        gave = records(bench, "gave")[-1]
        assert gave["how"] == "broken"
        assert abs(gave["gate_ms"] - gate_ms(bench)[0]) <= 1
        bench.hold()
        bench.run_for(700)
        assert state(bench) == "held"


def test_an_exception_that_stays_ends_in_the_dark_and_starts_anew(tmp_path: Path):
    with armed(tmp_path, LIGHT_FIRST) as bench:
        bench.tap()
        bench.run_for(1_000)
        for _ in range(12):
            bench.tell_box("raise")
            bench.run_for(20)
        assert not bench.lamp
        bench.run_for(10_000)
        assert not bench.lamp
        assert records(bench, "boot")[-1]["reason"] == 3, "an exception"
        assert state(bench) == "broken"


def test_noise_in_the_display_is_gone_with_the_next_frame(tmp_path: Path):
    with switched_on(tmp_path) as bench:
        bench.panel.disturb()
        assert bench.panel.in_test
        bench.run_for(1_000)
        assert not bench.panel.in_test


def test_too_little_memory_refuses_to_arm(tmp_path: Path):
    with switched_on(tmp_path) as bench:
        bench.tell_box("eat 18000")
        bench.run_for(10)
        bench.hold()
        bench.run_for(700)
        assert state(bench) in ("idle", "fault")
        assert not records(bench, "arm")


def test_a_run_whose_records_would_not_fit_is_refused(tmp_path: Path):
    batch = program(*LIGHT_FIRST["steps"][1:] * 40, sheets=99)
    with switched_on(tmp_path, batch, interpreter="cpython") as bench:
        (tmp_path / "flash" / "filler").write_bytes(bytes(300_000))
        bench.hold()
        bench.run_for(700)
        assert state(bench) == "idle" and not records(bench, "arm")
        send(bench, SHORT_RUN)
        bench.hold()
        bench.run_for(700)
        assert state(bench) == "pick"
