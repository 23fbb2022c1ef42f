"""An exception at any line of the safety path: the lamp goes off, nothing lights, the run can go on."""

from pathlib import Path

import pytest
from tests.controller.invariants import Invariants
from tests.controller.stage import LIGHT_FIRST, armed, gate_ms, records, state

from footlight.bench import Bench

STRIDE = 37  # a prime, so that other lines are met when the code changes
MOST_LINES = 600
DOWN, UP = True, False
# (what the foot does, how long after it the next)
PATHS = {
    "starting": ((DOWN, 150), (UP, 500)),
    "stopped": ((DOWN, 150), (UP, 2_000), (DOWN, 200), (UP, 500)),
    "to its end": ((DOWN, 150), (UP, 5_500)),
}


def tread(bench: Bench, moves: tuple[tuple[bool, int], ...]) -> None:
    for down, span_ms in moves:
        bench.contacts(down, not down)
        bench.run_for(span_ms)


def settle(bench: Bench) -> None:
    """Whatever it was: the watchdog has bitten, and a person has acknowledged."""
    bench.run_for(12_000)
    assert not bench.lamp
    bench.hold()
    bench.run_for(1_000)


@pytest.mark.parametrize("path", PATHS)
def test_an_exception_at_any_line(tmp_path: Path, path: str):
    moves = PATHS[path]
    ends = set()
    for line in range(1, MOST_LINES, STRIDE):
        with armed(tmp_path / str(line), LIGHT_FIRST, interpreter="cpython") as bench:
            watcher = Invariants(bench)
            # The last move is the one that is sabotaged.
            tread(bench, moves[:-1])
            bench.tell_box(f"sabotage {line}")
            tread(bench, moves[-1:])
            settle(bench)
            told = records(bench)
            assert watcher.broken == [], f"line {line}"
            assert [record["n"] for record in told] == list(range(1, len(told) + 1)), f"line {line}"
            assert max(gate_ms(bench), default=0) <= 5_051, f"line {line}"
            ends.add(state(bench))
            assert state(bench) in ("held", "ready", "bath", "menu", "broken", "lit"), f"line {line}"
    assert ends
