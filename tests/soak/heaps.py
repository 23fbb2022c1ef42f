"""The campaign of heap sizes: from too small for an interpreter up to what the bench has, a whole run each.

At each size the controller either does not start, and is dark; or refuses to arm; or meets a fault and tells
it; or runs whole. Never a lamp left on, never a light without a record, never a loss that nothing tells.
"""

import tempfile
from collections import Counter
from pathlib import Path

from tests.controller.stage import BATH, LIGHT, channel, gate_ms, program, records, switched_on
from tests.soak.bits import Outcome

from footlight.bench import Bench
from footlight.bench.glyphs import read_text
from footlight.bench.process import MICROPYTHON
from footlight.bench.referee import BreachError, watch
from footlight.link import journal
from footlight_core import states as st

# Every 8 KiB, and every KiB where starting and arming begin.
SIZES_KIB = sorted({*range(8, 513, 8), *range(184, 249)})
PROGRAM = program(LIGHT, BATH, LIGHT)
GATES_MS = [5_050, 5_050]
DARK, REFUSED, TOLD, RAN = "do not start", "refuse to arm", "break off and tell it", "run whole"


def sizes(seed: int) -> Outcome:
    """One size, with a fresh flash that holds a program."""
    heap_kib = SIZES_KIB[seed]
    with tempfile.TemporaryDirectory() as folder:
        try:
            outcome = one_size(Path(folder), heap_kib)
        except BreachError as error:
            return 1, [f"{heap_kib} KiB: {error}"], Counter()
    return 1, [], Counter([outcome])


def edge_kib(folder: Path) -> int:
    """The smallest heap that the firmware starts with, by halving [KiB]."""
    dark, starts = SIZES_KIB[0], SIZES_KIB[-1]
    while starts - dark > 1:
        middle = (dark + starts) // 2
        with Bench(folder / str(middle), MICROPYTHON, middle) as bench:
            bench.switch_on()
            bench.run_for(500)
            dark, starts = (dark, middle) if bench.is_on else (middle, starts)
    return starts


def one_size(folder: Path, heap_kib: int) -> str:
    """A whole run with a heap of this size [KiB] -> which of the four it was.

    Raises BreachError for anything else.
    """
    with switched_on(folder, PROGRAM, interpreter=MICROPYTHON):
        pass
    with Bench(folder, MICROPYTHON, heap_kib) as bench:
        referee = watch(bench, f"a heap of {heap_kib} KiB")
        bench.switch_on()
        bench.run_for(500)
        if bench.is_on:
            refusal = _run(bench)
            referee.finish()
            outcome = _judge(bench, refusal)
        else:
            outcome = _judge_dark(bench)
    _judge_journal(folder, len(gate_ms(bench)))
    return outcome


def _run(bench: Bench) -> str:
    """All that a printer does from switching on to the end of the sheet -> what was shown after arming."""
    bench.hold()
    bench.run_for(700)
    bench.hold()
    bench.run_for(100)
    shown = read_text(bench.screen_rows())
    bench.run_for(600)
    for wait_ms in (7_000, 22_000, 3_000, 7_000):
        bench.tap()
        bench.run_for(wait_ms)
    bench.run_for(10_000)
    return shown


def _judge(bench: Bench, shown: str) -> str:
    told = {record["code"] for record in records(bench, "fault")}
    _require(not bench.lamp, "the lamp is left on")
    if gate_ms(bench) == GATES_MS and records(bench, "end") and not told:
        return RAN
    if told & {st.NO_MEMORY, st.EXCEPTION}:
        return TOLD
    if not records(bench, "arm"):
        _require(not gate_ms(bench), "a light without a run")
        _require(st.fault_word(st.NO_MEMORY) in shown, f"not armed, and shows {shown!r}")
        return REFUSED
    raise BreachError(f"half a run and no fault: {gate_ms(bench)} ms of light, shows {shown!r}")


def _judge_dark(bench: Bench) -> str:
    _require(not gate_ms(bench) and not bench.lamp, "a light before the end")
    _require(bench.end is not None, "it ended and nothing tells how")
    return DARK


def _judge_journal(folder: Path, lights: int) -> None:
    """With memory again, every light is in the journal, and its numbers have no gap."""
    with Bench(folder, MICROPYTHON) as bench:
        bench.switch_on()
        bench.run_for(500)
        entries = list(journal.read(channel(bench), 1))
    _require([entry.number for entry in entries] == list(range(1, len(entries) + 1)), "a gap in the journal")
    told = [entry.record["k"] if entry.record else "" for entry in entries]
    _require(told.count("gave") + told.count("cut") == lights, f"{lights} lights; the journal has {told}")


def _require(holds: bool, breach: str) -> None:
    if not holds:
        raise BreachError(breach)
