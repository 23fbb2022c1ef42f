"""A counted light in the sequencer: its cap, what is booked of it, what its record says."""

from checking import Stage, check, finish

from footlight_core import dose as doses
from footlight_core import states as st

LAMP = {"name": "HEAD", "cap_ms": 6_000, "window_ms": 20_000}
LIGHT = {"kind": "light", "name": "l", "show": "L", "time_ms": 4_000, "dead_ms": 50}
PROGRAM = {"v": 1, "title": "T", "name": "t", "lamps": [LAMP], "steps": [LIGHT] * 2}
LEARNT = [24_080, 80, 0, 0, 1_000]


def armed(counts=True, **lamp):
    """Ready for the first light."""
    stage = Stage(PROGRAM | {"lamps": [LAMP | lamp]} if lamp else PROGRAM)
    stage.seq.counts = lambda name: counts
    stage.states((st.LONG, 1_000), (st.LONG, 2_000))
    stage.take()
    return stage


def count(stage, at_ms, level, dose_ms):
    """A press that lights at `at_ms`; the sensor reads a level until about so much light was had."""
    stage.event(st.SHORT, at_ms)
    run = stage.seq.run
    run.dose.arm(1, LEARNT, 80)
    run.dose.begin(run.lit_left_ms, run.gate_ms, run.cap_ms)
    gate_ms = dose_ms * 24_000 // level
    for t_ms in range(10, gate_ms + 1, 10):
        run.dose.see(80 + level + t_ms // 10 % 5, t_ms * doses.TICKS_PER_MS)
    run.dose.end(gate_ms)
    return gate_ms


def end(stage, at_ms, gate_ms):
    """The gate has closed after so long."""
    stage.gate_off_ms = None
    stage.seq.handle(st.GATE, gate_ms, at_ms + gate_ms)
    stage._apply(at_ms + gate_ms)
    return stage.seq.run


stage = armed()
gate_ms = count(stage, 10_000, 20_000, 4_000)
check("a third of a stop longer", (stage.seq.run.gate_ms, stage.seq.run.cap_ms), (4_050, 5_086))
check("how much of it has burnt, for a reset", abs(stage.seq.run.burnt_ms(4_800) - 4_050) < 30, True)
run = end(stage, 10_000, gate_ms)
check("whole", (run.tally.least_ms(1), run.index, run.is_capped, run.answered), (4_000, 1, False, "whole"))
lines = [line for _, line in stage.take() if "dose" in line]
check("its record", len(lines), 1)

stage = armed()
gate_ms = count(stage, 10_000, 24_000, 1_000)
run = end(stage, 10_000, gate_ms)
check("held", (abs(run.light_ms - 1_000) < 30, stage.seq.state), (True, "held"))
check("no longer for the rest than for the whole", run.counted_cap_ms() <= 5_086 - gate_ms + 50, True)

stage = armed()
count(stage, 10_000, 16_000, 3_000)
run = end(stage, 10_000, 5_086)
check("at its cap", (run.is_capped, stage.seq.state, run.answered), (True, "ready", "short"))
check("and told", stage.seq.notice, "SHORT")

stage = armed(window_ms=4_500)
stage.event(st.SHORT, 10_000)
check("no more than the lamp's ten minutes leave", stage.seq.run.cap_ms, 4_500)

stage = armed(counts=False)
stage.event(st.SHORT, 10_000)
run = stage.seq.run
check("by seconds", (run.cap_ms, run.burnt_ms(700)), (4_050, 700))
run.dose.arm(1, None, 80)
run.dose.begin(4_000, 4_050, 4_050)
run.dose.end(4_050)
end(stage, 10_000, 4_050)
check("and told why", (run.tally.least_ms(1), stage.seq.notice, run.dose.how), (4_000, "BYTIME", "unlearnt"))

dose = doses.Dose()
dose.arm(0, None, 0)
dose.begin(100, 100, 100)
check("no sensor", (dose.how, dose.is_untold, dose.had_ms()), ("", False, -1))
dose.end(100)
dose.glow(0, 1)
dose.glow(0, 200_000)
check("no tail of no light", (dose.tail_ms, dose.is_glowing()), (-1, False))
finish()
