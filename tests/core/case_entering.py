"""What a state leaves behind for the next, how each rule sounds and what it records; entries and actions."""

from checking import Stage, armed, bath, check, finish, head, lamp, light, told

from footlight_core import actions, records
from footlight_core import states as st
from footlight_core.run import NO_PROGRAM

PRESS, SHORT, LONG = st.PRESS, st.SHORT, st.LONG
DEV = bath("dev", 60_000, lift_ms=10_000)
FIX = bath("fix", 30_000)
WHITE_FIX = bath("fix", 30_000, white=1)
SECOND = light(10_000, dead_ms=50, least_ms=100)
LOOK = {"kind": "pause", "name": "look", "show": "LOOK"}
STIRRED = bath("dev", 60_000, stir_first_ms=10_000)
CUES = {
    "kind": "hand",
    "name": "rinse",
    "show": "RINSE",
    "time_ms": 20_000,
    "cues": [[0, "SHAKE"], [9000, "DUMP"]],
}


def menu(stage, turns, ms):
    """Open the menu at `ms`, turn it so often, choose."""
    stage.states((LONG, ms), *[(SHORT, ms + 1000 * turn) for turn in range(1, turns + 1)])
    return stage.states((LONG, ms + 1000 * turns + 2000))[0]


def sounds(stage, event, ms):
    """What one event sounds like and records."""
    stage.take()
    stage.event(event, ms)
    return told(stage, "")


# -- timers -----------------------------------------------------------------------------------------
stage = Stage(head(DEV))
stage.states((SHORT, 1000), (LONG, 3000))
check("the set-up light is put away after ten minutes", stage.seq.due_ms(), 603_000)
stage = armed(SECOND, LOOK)
stage.states((SHORT, 6000))
check("a light counts from its lamp-on", stage.seq.lit_ms, 6000)
stage.until(30_000)
check("its seconds end with it", (stage.seq.state, stage.seq.due_ms()), ("paused", st.NEVER_MS))
for ms, wanted in ((16_199, "lit"), (16_200, "fault")):
    stage = armed(SECOND)
    stage.states((SHORT, 6000))
    stage.gate_off_ms = None
    stage.until(ms)
    check("no report 150 ms after 16,050: at %d ms" % ms, stage.seq.state, wanted)
stage = armed(DEV)
check(
    "left",
    (menu(stage, 4, 6000), stage.seq.due_ms(), stage.seq.run.program),
    ("idle", st.NEVER_MS, NO_PROGRAM),
)
stage = armed(light(1000, settle_ms=60_000), SECOND)
check(
    "a sheet that was not waited for",
    (menu(stage, 2, 6000), stage.states((SHORT, 12_000))),
    ("ready", ["lit"]),
)
stage = armed(FIX, SECOND)
stage.states((SHORT, 6000), (LONG, 9000))
stage.take()
stage.until(20_000)
check("nothing to settle, nothing to ring", told(stage, "ready"), [])

# -- baths that follow others -----------------------------------------------------------------------
stage = armed(FIX, bath("wash", 60_000, aside=1), DEV)
stage.states((SHORT, 6000), (SHORT, 40_000))
check("one tap begins a wash and nothing after it", (stage.seq.state, stage.seq.run.index), ("ready", 2))
stage = armed(STIRRED, STIRRED)
check("agitation begins with the bath", "stir" in sounds(stage, SHORT, 6000), True)
stage.states((LONG, 9000))
check("and anew with the next", "stir" in sounds(stage, SHORT, 11_000), True)
stage = armed(CUES, CUES)
stage.states((SHORT, 6000), (SHORT, 30_000))
stage.take()
stage.until(39_000)
check(
    "cues begin anew with the next step",
    [line for line in stage.take() if line[1] == "cue"],
    [(39_000, "cue")],
)

# -- a batch ----------------------------------------------------------------------------------------
stage = armed(light(1000), light(1000), sheets=3)
for number in range(6):
    check("light %d of the batch" % (number + 1), stage.states((SHORT, 6000 + 3000 * number)), ["lit"])
    stage.until(8000 + 3000 * number)
    if number == 1:
        check(
            "the second sheet begins",
            (stage.seq.run.sheet, stage.seq.run.index, stage.seq.ledger.last_sheet),
            (2, 0, 2),
        )
        check("its number is kept", told(stage, "keep"), ["keep 0"])
check("three sheets wait", (stage.seq.state, stage.seq.ledger.waiting), ("done", [1, 2, 3]))
check(
    "again: new sheets, not those that wait",
    (stage.states((LONG, 30_000)), stage.seq.run.sheet),
    (["ready"], 4),
)
stage = Stage(head(DEV))
stage.seq.ledger.last_sheet, stage.seq.ledger.waiting = 7, [5]
stage.states(*[(SHORT, 1000 * turn) for turn in range(1, 5)], (LONG, 6000))
check("picking begins with the sheet that waits", (stage.seq.state, stage.seq.picked_sheet()), ("pick", 5))
stage.states((SHORT, 7000), (SHORT, 8000), (LONG, 10_000))
check("the sheet that was picked", (stage.seq.run.sheet, stage.seq.state), (7, "ready"))

# -- white light ------------------------------------------------------------------------------------
for taps, state in ((0, "pick"), (1, "focus")):
    stage = armed(WHITE_FIX)
    stage.states((SHORT, 6000), (SHORT, 40_000), (SHORT, 42_000))
    stage.take()
    stage.states(*[(SHORT, 44_000)] * taps, (LONG, 46_000))
    check("white light ends at " + state, (stage.seq.state, told(stage, "white")), (state, ["white 0"]))
stage = armed(FIX, dict(LOOK, white=1), DEV)
stage.states((SHORT, 6000), (SHORT, 40_000))
check("a pause may permit white light", (stage.seq.state, told(stage, "white")), ("paused", ["white 1"]))

# -- what is said -----------------------------------------------------------------------------------
stage = Stage(head(DEV))
check("turning", sounds(stage, SHORT, 1000), ["turn"])
stage.states((SHORT, 2000))
check("the last sheet", sounds(stage, LONG, 4000), ["turn"])
stage.states((SHORT, 5000))
check("brightness", sounds(stage, LONG, 7000), ["keep 0", "turn"])
stage = Stage(head(DEV), lambda loaded: st.FULL_FLASH)
check("a refusal", sounds(stage, LONG, 2000), ["no"])
check("the menu", sounds(armed(DEV), LONG, 6000), ["turn"])
stage = armed(light(5000), light(5000, settle_ms=6000), lamps=[lamp(window_ms=8000)])
stage.states((SHORT, 6000), (SHORT, 14_000))
check("settling and hot: first it settles", stage.seq.notice, "WAIT")
stage.event(SHORT, 17_000)
check("settled and hot", (stage.seq.notice, stage.seq.state), ("COOL", "ready"))
stage = armed(SECOND, FIX)
stage.states((SHORT, 6000))
GAVE = ["lamp off 0", "gate low", "# gave 1 1 1 9990 9940 60 short", "done"]
check("short of the plan", sounds(stage, PRESS, 15_990)[-4:], GAVE)
stage = armed(SECOND, FIX)
stage.states((SHORT, 6000), (PRESS, 9050))
check("abandoned", sounds(stage, LONG, 12_000), ["# gave 1 1 1 0 0 7000 abandoned", "done"])
stage = Stage(head(DEV))
stage.states((SHORT, 1000), (LONG, 3000), (SHORT, 5000))
check("the set-up light off", sounds(stage, PRESS, 8000)[-3:-1], ["# focus 3000", "off"])
check(
    "put away: the first title",
    (stage.states((LONG, 11_000)), stage.seq.idle_entry()[2]),
    (["idle"], "TITLE"),
)

# -- every intent is answered, once -----------------------------------------------------------------
for turns, what, index in ((1, "back", 0), (2, "skip", 2), (3, "again", 0), (4, "leave", 1)):
    stage = armed(FIX, SECOND, DEV)
    stage.states((SHORT, 6000), (LONG, 9000))
    stage.take()
    menu(stage, turns, 12_000)
    check("a light not given: " + what, told(stage, "# gave"), ["# gave 1 2 1 0 0 10000 skipped"])
    check("then: " + what, stage.seq.run.index, index)
stage = armed(SECOND)
stage.states((SHORT, 6000))
stage.until(20_000)
stage.take()
actions.gave(stage.seq, records.WHOLE)
check("what is answered is not answered again", stage.seq.effects.count, 0)
for answer, after in ((actions.abandon, "done"), (actions.note_held, "held")):
    stage = armed(SECOND)
    stage.states((SHORT, 6000), (PRESS, 9050))
    answer(stage.seq)
    stage.event(st.TROUBLE, 12_000, st.EXCEPTION)
    check("a fault right after an answer", stage.states((LONG, 15_000)), [after])
stage = armed(SECOND)
stage.states((SHORT, 6000), (PRESS, 9050))
stage.seq.run.answered = records.ABANDONED
stage.event(st.TROUBLE, 12_000, st.EXCEPTION)
check("a fault right before it", stage.states((LONG, 15_000)), ["held"])
stage = armed(SECOND, FIX)
stage.states((SHORT, 6000), (PRESS, 9050), (LONG, 12_000), (SHORT, 15_000))
stage.event(st.TROUBLE, 16_000, st.WET_PEDAL)
check("a fault long after it", stage.states((LONG, 18_000)), ["bath"])
stage = armed(SECOND)
menu(stage, 0, 6000)
check("one that stays has its intent already", told(stage, "# intent"), [])
stage = armed(FIX)
menu(stage, 1, 6000)
check("no step before the first; nothing to answer", (stage.seq.run.index, told(stage, "# gave")), (0, []))
stage = armed(SECOND)
stage.states((SHORT, 6000), (PRESS, 9050))
stage.event(st.TROUBLE, 12_000, st.WET_PEDAL)
stage.take()
check("a fault with a light off", (stage.states((LONG, 15_000)), told(stage, "# intent")), (["held"], []))
stage = armed(SECOND)
stage.states((SHORT, 6000))
stage.event(st.TROUBLE, 8050, st.NO_LIGHT)
check("a fault in a light", told(stage, "# gave"), ["# gave 1 1 1 2050 2000 8000 broken"])
stage.states((LONG, 12_000))
check("answered", (stage.seq.fault_code, told(stage, "# c")), (st.NO_FAULT, ["# cleared 1 1 5"]))
stage = armed(SECOND, FIX)
stage.states((SHORT, 6000))
stage.event(st.TROUBLE, 16_000, st.WET_PEDAL)
stage.take()
stage.states((LONG, 20_000))
check("given but for the last of it: not counted again", told(stage, "# gave"), [])
stage = armed(SECOND, FIX)
stage.states((SHORT, 6000))
stage.gate_off_ms = None
stage.until(20_000)
stage.states((LONG, 22_000))
check("a lost report is answered", (stage.seq.fault_code, told(stage, "# c")), (0, ["# cleared 1 1 9"]))
stage = Stage(head(DEV))
stage.states((SHORT, 1000), (LONG, 3000), (SHORT, 5000))
stage.event(st.TROUBLE, 7000, st.NO_LIGHT)
stage.states((LONG, 10_000))
check("the set-up light broken off is told once", told(stage, "# focus"), ["# focus 2000"])
stage = Stage(head(DEV))
stage.states((SHORT, 1000), (LONG, 3000), (SHORT, 5000))
stage.gate_off_ms = None
stage.until(130_000)
stage.states((LONG, 140_000))
check("its lost report is answered", (stage.seq.fault_code, told(stage, "# c")), (0, ["# cleared 0 1 9"]))
finish()
