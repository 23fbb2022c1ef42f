"""Each leg of the lamp's coil is tried alone at every start; one that does not hold is a fault at once."""

from pathlib import Path

import pytest
from tests.controller.stage import LIGHT_FIRST, send, state, status, switched_on

from footlight.bench import Bench
from footlight.bench import events as ev
from footlight_core import states as st

AWAKE_MS = 1_500


def started(folder: Path, fault: str) -> Bench:
    bench = Bench(folder)
    bench.spoil_coil(fault)
    bench.switch_on()
    bench.run_for(AWAKE_MS)
    return bench


def legs_tried(bench: Bench) -> int:
    return sum(1 for event in bench.events if event.kind == ev.LEG and event.value)


def test_whole_legs_are_tried_one_by_one_and_nothing_is_said(tmp_path: Path):
    with started(tmp_path, "") as bench:
        assert legs_tried(bench) == 3
        assert status(bench)["fault"] == st.NO_FAULT
        assert not [event for event in bench.events if event.kind in (ev.GATE, ev.PUMP) and event.value]


@pytest.mark.parametrize(
    ("fault", "tried"),
    [
        ("high shorted", 0),
        ("low shorted", 0),
        ("high dead", 1),
        ("low dead", 3),
        ("level passes", 2),
        ("holds on", 3),
    ],
)
def test_a_leg_that_does_not_hold_is_a_fault_before_the_first_sheet(tmp_path: Path, fault: str, tried: int):
    """Beside a leg that conducts for good nothing is tried: the other leg alone would light the lamp."""
    with started(tmp_path, fault) as bench:
        assert status(bench)["fault"] == st.COIL_LEG
        assert legs_tried(bench) == tried


def test_it_cannot_be_acknowledged_away(tmp_path: Path):
    with switched_on(tmp_path, LIGHT_FIRST) as bench:
        bench.cut_power()
        bench.spoil_coil("low shorted")
        bench.switch_on()
        bench.run_for(AWAKE_MS)
        for _ in range(4):
            bench.hold()
            bench.run_for(700)
        assert state(bench) in ("idle", "pick")


def test_a_white_contact_that_is_closed_unasked_is_told(tmp_path: Path):
    with started(tmp_path, "") as bench:
        bench.spoil_coil("white shorted")
        bench.run_for(200)
        assert status(bench)["fault"] == st.WHITE_OPEN


def test_on_the_computers_cable_alone_it_serves_and_does_not_arm(tmp_path: Path):
    with started(tmp_path, "no supply") as bench:
        send(bench, LIGHT_FIRST)
        assert status(bench)["fault"] == st.NO_FAULT
        for _ in range(2):
            bench.hold()
            bench.run_for(700)
        assert state(bench) in ("idle", "pick") and legs_tried(bench) == 0
        bench.run_for(20_000)
        bench.spoil_coil("")
        bench.run_for(500)
        assert legs_tried(bench) == 3, "the legs are tried once the supply is there"
