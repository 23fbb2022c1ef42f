"""Rules that the other cases pass over: each row here was left out of the table once, and nothing noticed."""

from checking import Stage, armed, bath, check, finish, head, light, told

from footlight_core import states as st
from footlight_core.recovery import Recovery

PRESS, SHORT, LONG = st.PRESS, st.SHORT, st.LONG
DEV = bath("dev", 60_000, lift_ms=10_000)
FIX = bath("fix", 30_000)
AUTO = bath("wash", 5000, auto=1)
LOOK = {"kind": "pause", "name": "look", "show": "LOOK"}

# -- idle, choosing ---------------------------------------------------------------------------------
stage = Stage(head(DEV))
stage.states((SHORT, 1000), (SHORT, 2000), (LONG, 4000))
check("the last sheet is said", (stage.seq.state, stage.seq.notice), ("idle", "0"))
stage = Stage(head(DEV))
stage.states((SHORT, 1000), (SHORT, 2000), (SHORT, 3000))
check("brightness goes round", (stage.states((LONG, 5000)), stage.seq.notice), (["idle"], "LEVEL2"))
stage.states((LONG, 7000), (LONG, 9000))
check("to dark", (stage.seq.ledger.brightness, stage.seq.notice), (0, "DARK"))
check("and is kept", "keep 0" in told(stage, "keep"), True)
stage = Stage(head(DEV), lambda loaded: 0 if loaded else st.WELDED_RELAY)
stage.states((SHORT, 1000), (LONG, 3000))
check("a set-up light that is refused says why", (stage.seq.state, stage.seq.notice), ("idle", "UNPLUG"))
stage = Stage(head(DEV))
stage.states((LONG, 2000))
check("a new sheet is offered first", (stage.seq.picked_sheet(), stage.seq.state), (1, "pick"))
stage.seq.ledger.last_sheet = 7
check("then the last one again", (stage.states((SHORT, 3000)), stage.seq.picked_sheet()), (["pick"], 7))
forbidden = [0]
stage = Stage(head(DEV), lambda loaded: forbidden[0])
stage.states((LONG, 2000))
forbidden[0] = st.FULL_FLASH
check("forbidden while picking", (stage.states((LONG, 4000)), stage.seq.notice), (["pick"], "FULL"))

# -- menu -------------------------------------------------------------------------------------------
stage = armed(DEV, FIX)
stage.states((LONG, 6000), (SHORT, 7000), (SHORT, 8000), (LONG, 10_000))
check("what is skipped is recorded", told(stage, "# step"), ["# step 1 1 1 10000 0 skipped"])
stage.states((LONG, 12_000), (SHORT, 13_000), (SHORT, 14_000), (SHORT, 15_000), (LONG, 17_000))
check("again, from the first step", (stage.seq.state, stage.seq.run.index), ("ready", 0))
stage.states((LONG, 20_000), *[(SHORT, 21_000 + 1000 * n) for n in range(4)], (LONG, 26_000))
check("what is left is recorded", (stage.seq.state, told(stage, "# end")), ("idle", ["# end 1 1 left"]))
stage = armed(LOOK, DEV)
check("a pause has the menu too", stage.states((LONG, 6000), (LONG, 8000)), ["menu", "paused"])
check("a double tap passes no pause", stage.states((SHORT, 8300), (SHORT, 9000)), ["paused", "ready"])

# -- baths ------------------------------------------------------------------------------------------
stage = armed(DEV, FIX)
check("long in the lift ends it", stage.states((SHORT, 6000), (LONG, 60_000)), ["bath", "ready"])
check("as early", told(stage, "# step"), ["# step 1 1 1 6000 54000 early"])
stage = armed(DEV, AUTO)
stage.states((SHORT, 6000))
stage.until(66_000)
check("after its lift the next begins by itself", stage.seq.state, "bath")
check("on its time", told(stage, "# step"), ["# step 1 1 1 6000 60000 time"])

stage = armed(FIX, AUTO)
stage.states((SHORT, 6000))
stage.until(36_000)
check("so does it without a lift", (stage.seq.state, stage.seq.run.index), ("bath", 1))
check("on its time, too", told(stage, "# step"), ["# step 1 1 1 6000 30000 time"])
stage = armed(FIX, DEV)
stage.states((SHORT, 6000), (LONG, 9000))
check("early is recorded as it was", told(stage, "# step"), ["# step 1 1 1 6000 3000 early"])
stage = Stage(head(DEV))
stage.states((LONG, 2000), (SHORT, 3000))
stage.until(40_000)
check("picking given up leads to the first title", stage.seq.idle_entry()[2], "TITLE")

# -- faults and lights ------------------------------------------------------------------------------
SECOND = light(10_000, dead_ms=50, least_ms=100)
stage = armed(SECOND, FIX)
stage.states((SHORT, 6000))
stage.event(st.TROUBLE, 16_000, st.WET_PEDAL)
check("broken off with nothing left to give", told(stage, "# gave"), ["# gave 1 1 1 10000 9950 50 short"])
stage.event(st.TROUBLE, 17_000, st.PEDAL_WIRE)
check("the newest fault is shown", stage.seq.fault_code, st.PEDAL_WIRE)
check("and goes on to the next step", stage.states((LONG, 20_000)), ["ready"])
stage = armed(SECOND, FIX)
stage.states((SHORT, 6000))
stage.gate_off_ms = None
stage.until(20_000)
stage.states((LONG, 22_000))
check("a light without a report is answered", told(stage, "# gave"), ["# gave 1 1 1 10050 10000 0 broken"])
stage = Stage(head(DEV))
stage.states((SHORT, 1000), (LONG, 3000), (SHORT, 5000))
stage.take()
stage.until(6900)
check("the set-up light counts its seconds", told(stage, "second"), ["second"])
stage.event(st.TROUBLE, 7000, st.NO_LIGHT)
check("a fault in the set-up light", told(stage, "# focus"), ["# focus 2000"])
check("leads to idle", stage.states((LONG, 10_000)), ["idle"])
stage = Stage(head(DEV))
stage.states((SHORT, 1000), (LONG, 3000), (SHORT, 5000))
stage.gate_off_ms = None
stage.until(130_000)
check("its gate is missed", (stage.seq.state, stage.seq.fault_code), ("fault", st.LOST_GATE))
check("and answered", (stage.states((LONG, 140_000)), told(stage, "# focus")), (["idle"], ["# focus 120000"]))
stage = Stage(head(DEV))
stage.states((SHORT, 1000), (LONG, 3000))
check("a double tap lights nothing", stage.states((SHORT, 3400)), ["focus"])
stage.until(604_000)
check("nobody's set-up light is put away", (stage.seq.state, told(stage, "# focus")), ("idle", ["# focus 0"]))
stage = armed(FIX)
stage.states((SHORT, 6000), (SHORT, 40_000))
check("a double tap leaves no print", stage.states((SHORT, 40_300), (SHORT, 41_000)), ["done", "idle"])

# -- after a reset ----------------------------------------------------------------------------------
ARM = {"k": "arm", "run": 7, "slot": 1, "sha": "ab", "title": "T", "sheet": 41, "sheets": 1}
broken = Recovery()
broken.feed(ARM)
broken.feed({"k": "begin", "run": 7, "step": 2, "sheet": 41})
for name, there, wanted in (("its program", True, "ready"), ("none", False, "idle")):
    stage = Stage(head(DEV, FIX))
    stage.seq.resume_broken(stage.seq.shelf.loaded if there else None, broken, 1000)
    check("a broken run with " + name, stage.states((SHORT, 3000), (LONG, 5000)), ["broken", wanted])
    check("ends or goes on, " + name, told(stage, "# end"), [] if there else ["# end 7 41 broken"])
finish()
