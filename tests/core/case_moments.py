"""Moments and numbers that the other cases pass over: each was moved by one once, and nothing noticed.

Times by hand from the rules: blind for 100 ms after a state is entered, 500 ms of quiet before anything
starts, a notice for 2.5 s, the menu for 5 s, picking for 30 s.
"""

from checking import Stage, armed, bath, check, finish, head, lamp, light, told

from footlight_core import actions, program
from footlight_core import states as st
from footlight_core.recovery import Recovery

PRESS, SHORT, LONG = st.PRESS, st.SHORT, st.LONG
DEV = bath("dev", 60_000, lift_ms=10_000)
FIX = bath("fix", 30_000)
SECOND = light(10_000, dead_ms=50)


def after(stage, event, ms, touch_ms):
    """Was there a rule for a gesture that first touched at `touch_ms`, and the state after it."""
    return stage.event(event, ms, touch_ms), stage.seq.state


# -- just switched on -------------------------------------------------------------------------------
seq = Stage(head(DEV)).seq
check("nothing is said", (seq.notice, seq.fault_code, seq.due_ms()), ("", st.NO_FAULT, st.NEVER_MS))
check("no timer speaks", seq.tick(60_000) is False, True)
check("nothing is lit, all may be changed", (seq.is_lit(), seq.is_idle()), (False, True))
check("the first touch counts, however soon", after(Stage(head(DEV)), SHORT, 60, 50), (True, "idle"))

# -- when a gesture counts --------------------------------------------------------------------------
check("a touch 99 ms after entry is of the past", after(armed(DEV), LONG, 5300, 4099), (False, "ready"))
check("at 100 ms it counts", after(armed(DEV), LONG, 5300, 4100), (True, "menu"))
check("quiet is half a second", after(armed(DEV), SHORT, 4700, 4499), (True, "ready"))
check("and no more", after(armed(DEV), SHORT, 4700, 4500), (True, "bath"))
stage = armed(FIX, DEV)
stage.states((SHORT, 6000))
check("a foot down as a bath without lift ends", after(stage, SHORT, 36_300, 35_900), (False, "over"))
stage = armed(DEV, FIX)
stage.states((SHORT, 6000), (LONG, 60_000))
check("a double tap after the lift starts nothing", stage.states((SHORT, 60_300)), ["ready"])
stage = armed(DEV)
stage.event(st.TROUBLE, 6000, st.WET_PEDAL)
check(
    "nor right after a fault is answered", stage.states((LONG, 10_000), (SHORT, 10_300)), ["ready", "ready"]
)

# -- notices, clocks beside -------------------------------------------------------------------------
stage = armed(DEV)
stage.states((SHORT, 4300))
check("a notice is due to go", (stage.seq.notice, stage.seq.due_ms()), ("WAIT", 6800))
check("not before", (stage.seq.tick(6799) is False, stage.seq.notice), (True, "WAIT"))
check("then it goes, and was all", (stage.seq.tick(6800), stage.seq.notice), (True, ""))
check("no more is due", (stage.seq.tick(6800), stage.seq.due_ms()), (False, st.NEVER_MS))
asides = [bath("wash", 60_000, aside=1, show="W%d" % number) for number in range(5)]
stage = armed(*asides, FIX)
stage.states(*[(SHORT, 6000 + 1000 * number) for number in range(5)])
check("four clocks run beside; a fifth takes the oldest's place", len(stage.seq.aside), 4)
stage.until(67_000)
check("the first that is left rings", (told(stage, "wash"), stage.seq.notice), (["wash"], "W1"))
check("its word stays as long as any", stage.seq.notice_ms, 69_500)
stage.until(70_000)
check("then the others", (told(stage, "wash"), stage.seq.notice), (["wash"] * 3, "W4"))

# -- where nothing is waited for --------------------------------------------------------------------
LOOK = {"kind": "pause", "name": "look", "show": "LOOK"}
stage = armed(LOOK, FIX)
stage.states((LONG, 10_000), (LONG, 12_000))
check("a message, after the menu", (stage.seq.state, stage.seq.due_ms()), ("paused", st.NEVER_MS))
stage = armed(SECOND)
stage.states((SHORT, 6000), (PRESS, 9050))
check("a light held", (stage.seq.state, stage.seq.due_ms()), ("held", st.NEVER_MS))
stage = armed(SECOND)
stage.states((SHORT, 6000))
stage.until(16_050)
check("done after a light", (stage.seq.state, stage.seq.due_ms()), ("done", st.NEVER_MS))
stage = Stage(head(DEV))
stage.states((SHORT, 1000), (LONG, 3000), (SHORT, 5000), (PRESS, 7000))
check("the set-up light, off", (stage.seq.state, stage.seq.due_ms()), ("focus", 607_000))

# -- timers after an error on the way ------------------------------------------------------------------
stage = armed(bath("bleach", 30_000, lift_ms=10_000))
stage.states((SHORT, 6000))
stage.until(26_500)
stage.seq.beat_ms = 26_600
check("a beat where nothing beats", (stage.seq.state, stage.seq.tick(26_600)), ("lift", True))
check("is put away", (stage.seq.beat_ms, stage.seq.tick(26_600)), (st.NEVER_MS, False))


def broken(sound):
    """The first sound fails."""
    del sound
    stage.seq.sound = whole
    raise ValueError("an error of the moment")


whole, stage.seq.sound = stage.seq.sound, broken
try:
    stage.seq.tick(36_000)
    check("the error comes through", False, True)
except ValueError:
    stage.event(st.TROUBLE, 36_000, st.EXCEPTION)
check("a time that was up and not told is told after the fault", stage.states((LONG, 38_000)), ["over"])

# -- idle, picking, menu ----------------------------------------------------------------------------
stage = Stage(head(DEV))
stage.states((SHORT, 1000))
check("idle waits for ever", stage.seq.due_ms(), st.NEVER_MS)
stage = Stage(head(DEV))
stage.states((LONG, 2000))
check("picking waits half a minute", (stage.seq.due_ms(), stage.seq.is_idle()), (32_000, False))
stage.states((SHORT, 10_000))
check("each tap begins it anew", stage.seq.due_ms(), 40_000)
stage = armed(DEV)
stage.states((LONG, 6000))
check("the menu waits five seconds", stage.seq.due_ms(), 11_000)
stage.states((SHORT, 8000))
check("from each tap on", stage.seq.due_ms(), 13_000)
stage = armed(FIX)
stage.states((SHORT, 6000), (SHORT, 40_000))
check("done may be changed as idle may", (stage.seq.state, stage.seq.is_idle()), ("done", True))

# -- light ------------------------------------------------------------------------------------------
# Two lights of 5000 + 50 ms: 10,100 ms in ten minutes.
for window_ms, wanted in ((10_100, "lit"), (10_099, "ready")):
    stage = armed(light(5000, dead_ms=50), light(5000, dead_ms=50), lamps=[lamp(window_ms=window_ms)])
    check("%d ms of lamp" % window_ms, stage.states((SHORT, 6000), (SHORT, 20_000)), ["lit", wanted])
stage = armed(SECOND, SECOND)
stage.states((SHORT, 6000))
stage.gate_off_ms = None
stage.until(20_000)
stage.states((LONG, 22_000))
stage.event(st.GATE, 23_000, 4000)
check(
    "a report that comes after all takes nothing off the next light",
    (stage.seq.state, stage.seq.run.left_ms),
    ("ready", 10_000),
)
JUDGE = {"kind": "judge", "name": "clear", "show": "CLEAR", "least_ms": 0, "most_ms": 60_000, "auto": 1}
stage = armed(SECOND, JUDGE)
stage.states((SHORT, 6000))
stage.until(70_000)
check("the seconds of a light end with it", (stage.seq.state, told(stage, "over")), ("judged", []))

# -- baths and faults -------------------------------------------------------------------------------
stage = armed(
    bath("dev", 120_000, lift_ms=10_000, stir_first_ms=20_000, stir_every_ms=30_000, stir_for_ms=5000)
)
stage.states((SHORT, 6000))
stage.until(125_000)
check(
    "agitation at 0, 50 and 80 s, none in the lift",
    [line for line in stage.take() if line[1] in ("stir", "still")],
    [
        (6000, "stir"),
        (26_000, "still"),
        (56_000, "stir"),
        (61_000, "still"),
        (86_000, "stir"),
        (91_000, "still"),
    ],
)
stage = armed(FIX, DEV)
stage.states((SHORT, 6000))
stage.event(st.TROUBLE, 20_000, st.WET_PEDAL)
check("in a fault no clock speaks", stage.seq.tick(37_000) is False, True)
check("a tap has no rule there", stage.event(SHORT, 38_000) is False, True)
stage.states((LONG, 40_000))
stage.until(40_000)
check("the clock speaks once it is answered", stage.seq.state, "over")
stage = armed(bath("fix", 30_000, white=1))
stage.states((SHORT, 6000))
stage.event(st.TROUBLE, 20_000, st.WET_PEDAL)
stage.states((LONG, 22_000))
check("white light comes back with its bath", told(stage, "white"), ["white 1", "white 0", "white 1"])
stage = armed(DEV, bath("fix", 30_000, white=1))
stage.states((SHORT, 6000), (LONG, 60_000))
stage.event(st.TROUBLE, 62_000, st.WET_PEDAL)
stage.states((LONG, 66_000))
check("but not before its step has begun", (stage.seq.state, told(stage, "white")), ("ready", []))


# -- after a reset ----------------------------------------------------------------------------------
def resumed(step, sheet=41, sheets=1, steps=(DEV, FIX), had_ms=(0, 0), has_gap=False):
    """A run of the sheets from 41 on, cut off at a step after so much light at least and at most; resumed
    at 1000 ms."""
    raw = head(*steps, sheets=sheets)
    cut = Recovery()
    cut.run, cut.first_sheet = 7, 41
    cut.come_to(step, sheet)
    cut.tally.add(step, *had_ms)
    cut.has_gap = has_gap
    stage = Stage(raw)
    stage.seq.resume_broken(program.check(raw), cut, 1000)
    return stage


def on(stage, *events):
    """What lights a stage, and its states after these events."""
    states = stage.states(*events)
    return states, [line for line in told(stage, "") if line.startswith(("lamp on", "# move", "# intent"))]


for step, wanted in ((0, 0), (1, 0), (2, 1)):
    check("a run cut off at step %d" % step, resumed(step).seq.run.index, wanted)
stage = resumed(2)
check("a foot down since the reset is of the past", after(stage, LONG, 3000, 1099), (False, "broken"))
check("a fresh one goes on", after(stage, LONG, 5000, 3500), (True, "ready"))
# Past its last step: the next sheet, or the end of which only the record is missing.
stage = resumed(2, 42, 3, [light(1000)])
check("the next sheet waits", (stage.seq.state, stage.seq.run.sheet, stage.seq.run.index), ("broken", 43, 0))
check("and the one before it for its run", stage.seq.ledger.waiting, [42])
check("all of its light is to be given", on(stage, (LONG, 3000)), (["ready"], ["# intent 7 1 43 1000 1000"]))
stage = resumed(2, 43, 3, [light(1000)])
check("after the last sheet the run is done", stage.states((LONG, 3000)), ["done"])
check("and its end is told", told(stage, "# "), ["# end 7 43 whole"])
check("which waits too", stage.seq.ledger.waiting, [43])
stage = resumed(3)
check("all steps done: nothing goes by itself", (stage.seq.state, stage.seq.run.is_over()), ("broken", True))
check(
    "then only the end is told",
    (stage.states((LONG, 3000)), told(stage, "# ")),
    (["done"], ["# end 7 41 whole"]),
)
stage.event(st.TROUBLE, 4000, st.WET_PEDAL)
stage.states((LONG, 6000))
check("and no white light comes of it", (stage.seq.state, stage.seq.white), ("done", 0))

# What is offered of a light of 10 s, 20 ms the least that its relay can do.
LAMP = light(10_000, dead_ms=50)
stage = resumed(1, had_ms=(3000, 3000), steps=(LAMP, FIX))
check(
    "known to the moment: the rest",
    on(stage, (LONG, 3000), (SHORT, 6000)),
    (["ready", "lit"], ["# intent 7 1 41 7000 7050", "lamp on 7050"]),
)
stage.until(20_000)
check("and then the next step", (stage.seq.state, stage.seq.run.index), ("ready", 1))
stage = resumed(1, had_ms=(9990, 9990), steps=(LAMP, FIX))
check("nothing left that the relay could give", on(stage, (LONG, 3000)), (["ready"], ["# move 7 2 41"]))
check("so the next step waits", stage.seq.run.index, 1)
stage = resumed(1, had_ms=(1200, 3400), steps=(LAMP, FIX))
check("in doubt the pedal is asked", on(stage, (LONG, 3000)), (["doubt"], []))
entries = []
for turn in range(4):
    entries.append(stage.seq.rest_entry())
    stage.event(SHORT, 4000 + 1000 * turn)
check("harmless first", entries, [("MIN", 6600), ("NONE", 0), ("MAX", 8800), ("MIN", 6600)])
for turns, wanted in (
    (0, (["ready", "lit"], ["# intent 7 1 41 6600 6650", "lamp on 6650"])),
    (1, (["ready", "bath"], ["# move 7 2 41"])),
    (2, (["ready", "lit"], ["# intent 7 1 41 8800 8850", "lamp on 8850"])),
):
    stage = resumed(1, had_ms=(1200, 3400), steps=(LAMP, FIX))
    stage.states((LONG, 3000), *[(SHORT, 4000 + 1000 * turn) for turn in range(turns)])
    check("chosen after %d turns" % turns, on(stage, (LONG, 8000), (SHORT, 10_000)), wanted)
stage = resumed(1, had_ms=(1200, 3400), steps=(LAMP, FIX))
stage.states((LONG, 3000), (LONG, 5000), (LONG, 7000), (LONG, 9000))
check("the menu leads back to what was chosen", (stage.seq.state, stage.seq.run.left_ms), ("ready", 6600))
stage.states((SHORT, 11_000), (PRESS, 12_050), (SHORT, 15_000))
check("and it can be stopped and gone on with", (stage.seq.state, stage.seq.run.left_ms), ("lit", 5600))
check(
    "what it has had is known",
    (stage.seq.run.tally.least_ms(1), stage.seq.run.tally.most_ms(1)),
    (2200, 4400),
)
stage = resumed(1, had_ms=(0, 9980), steps=(LAMP, FIX))
stage.states((LONG, 3000))
check("just what the relay can do", stage.seq.rest_entry(), ("MIN", 20))
stage = resumed(1, had_ms=(1200, 1200), steps=(LAMP, FIX), has_gap=True)
run = stage.seq.run
check(
    "a record that is damaged may have been of this light",
    (run.least_ms, run.most_ms, run.tally.least_ms(1), run.tally.most_ms(1)),
    (1200, 11_200, 1200, 11_200),
)
stage = resumed(1, steps=(FIX, LAMP), has_gap=True)
check("but not of a bath", (stage.seq.run.most_ms, stage.seq.run.tally.most_ms(1)), (0, 0))
stage = resumed(1, had_ms=(0, 10_000), steps=(LAMP, FIX))
stage.states((LONG, 3000))
check("it may have had all: nothing is surely missing", stage.seq.rest_entry(), ("NONE", 0))
stage = resumed(1, had_ms=(0, 9985), steps=(LAMP, FIX))
stage.states((LONG, 3000))
check("or less than the relay can do", stage.seq.rest_entry(), ("NONE", 0))
stage.event(st.TROUBLE, 5000, st.WET_PEDAL)
check("a fault leads back to the choice", stage.states((LONG, 8000)), ["doubt"])
for had_ms in ((9985, 11_000), (12_000, 15_000)):
    stage = resumed(1, had_ms=had_ms, steps=(LAMP, FIX))
    check("too much already: %d" % had_ms[0], on(stage, (LONG, 3000)), (["ready"], ["# move 7 2 41"]))
stage = resumed(1, steps=(light(10, least_ms=20), FIX))
check("a light of nearly nothing that has not begun", on(stage, (LONG, 3000))[0], ["ready"])

stage = resumed(1, had_ms=(1200, 3400), steps=(LAMP, FIX))
stage.states((LONG, 3000))
stage.take()
stage.states((LONG, 5000))
check("a choice is heard", "ready" in told(stage, "ready"), True)
stage = resumed(1, had_ms=(0, 10_000), steps=(LAMP, FIX))
stage.states((LONG, 3000))
stage.take()
stage.states((LONG, 5000))
check("no more: as at the end of a light", told(stage, "done"), ["done"])
stage = resumed(1, had_ms=(9990, 9990), steps=(LAMP, FIX))
stage.seq.may_arm = lambda loaded: st.FULL_FLASH
check("what may not be armed is left, spent or not", stage.states((LONG, 3000)), ["idle"])

# Back and again begin a light anew, and the run knows what it had before.
stage = armed(LAMP, FIX)
stage.states((SHORT, 6000))
stage.until(17_000)
stage.take()
stage.states((LONG, 20_000), (SHORT, 21_000))
check("back", on(stage, (LONG, 23_000)), (["ready"], ["# move 1 1 1", "# intent 1 1 1 10000 10050"]))
actions.close_intent(stage.seq, "skipped")
stage.seq.run.light_ms = 500
actions.gave(stage.seq, "whole")
check("had before", (stage.seq.run.tally.least_ms(1), stage.seq.run.tally.most_ms(1)), (10_000, 10_000))
stage = armed(light(1000), sheets=2)
stage.states((SHORT, 6000))
stage.until(8000)
check("another sheet has had none", (stage.seq.run.sheet, stage.seq.run.tally.most_ms(1)), (2, 0))

stage = resumed(1, 42, 3, [light(1000)])
stage.states((LONG, 3000), (SHORT, 5000), (SHORT, 8000))
stage.until(10_000)
check("the batch goes on with its third sheet", (stage.seq.state, stage.seq.run.sheet), ("done", 43))
finish()
