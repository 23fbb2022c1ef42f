"""What is said where nothing is done, and the edges between the two; table and guards."""

from checking import Stage, armed, bath, check, finish, head, light, told

from footlight_core import states as st

PRESS, SHORT, LONG = st.PRESS, st.SHORT, st.LONG
DEV = bath("dev", 60_000, lift_ms=10_000)
FIX = bath("fix", 30_000)
SECOND = light(10_000, dead_ms=50, least_ms=100)
LOOK = {"kind": "pause", "name": "look", "show": "LOOK"}
JUDGE = {"kind": "judge", "name": "clear", "show": "CLEAR", "least_ms": 20_000, "most_ms": 60_000}


def refused(name, stage, ms, state, notice):
    """A tap at `ms` is answered by the sound for no and a word, and nothing else."""
    stage.take()
    states = stage.states((SHORT, ms))
    check(name, (states, told(stage, ""), stage.seq.notice), ([state], ["no"], notice))


def focus():
    """A stage with the set-up light chosen at 3 s, its trace emptied."""
    stage = Stage(head(DEV))
    stage.states((SHORT, 1000), (LONG, 3000))
    stage.take()
    return stage


# -- too soon: half a second after entry ------------------------------------------------------------
refused("too soon for a wash", armed(bath("wash", 60_000, aside=1), FIX), 4300, "ready", "WAIT")
refused("too soon for a step judged by eye", armed(JUDGE), 4300, "ready", "WAIT")
refused("too soon for a pause", armed(LOOK, DEV), 4300, "paused", "WAIT")
refused("too soon for the set-up light", focus(), 3300, "focus", "")
stage = armed(SECOND)
stage.states((SHORT, 6000), (PRESS, 9050))
refused("too soon for the rest", stage, 9350, "held", "WAIT")
stage = armed(FIX)
stage.states((SHORT, 6000), (SHORT, 40_000))
refused("too soon to leave a print", stage, 40_300, "done", "WAIT")

# -- the edges --------------------------------------------------------------------------------------
for touch_ms, wanted in ((9999, "ready"), (10_000, "lit")):
    stage = armed(light(1000, settle_ms=6000))
    stage.event(SHORT, 10_100, touch_ms)
    check("settled at 10 s, touched at %d ms" % touch_ms, stage.seq.state, wanted)
for ms, wanted in ((25_999, "judged"), (26_000, "bath")):
    check(
        "least time up at 26 s, tap at %d ms" % ms,
        armed(JUDGE, FIX).states((SHORT, 6000), (SHORT, ms))[1],
        wanted,
    )
# Gate 9950 or 9951 ms, less 50: 100 or 99 ms are left, and the relay can do 100.
for ms, wanted in ((15_950, "held"), (15_951, "ready")):
    check("stopped at %d ms" % ms, armed(SECOND, FIX).states((SHORT, 6000), (PRESS, ms))[1], wanted)
stage = armed(bath("dev", 60_000, lift_ms=1), FIX)
stage.states((SHORT, 6000))
stage.until(65_999)
check("a lift of one millisecond is a lift", stage.seq.state, "lift")
# The set-up light: 120 s at a time, 300 s in ten minutes; 120 s more fit after 180 s, not after 180.001 s.
for ms, wanted in ((190_000, "focus lit"), (190_001, "focus")):
    stage = focus()
    stage.states((SHORT, 5000), (SHORT, 130_000), (PRESS, ms))
    check("set-up light after %d ms of it" % (ms - 10_000), stage.states((SHORT, 200_000)), [wanted])
stage = armed(SECOND, FIX)
stage.states((SHORT, 6000))
stage.gate_off_ms = None
stage.event(st.GATE, 16_060, 10_060)
check(
    "a gate that was late gave all, not less than nothing",
    (stage.seq.state, stage.seq.run.left_ms),
    ("ready", 0),
)

# -- what is kept and what begins anew --------------------------------------------------------------
stage = armed(JUDGE, FIX)
stage.states((SHORT, 6000), (LONG, 9000))
check("a judged step left early is recorded so", told(stage, "# step"), ["# step 1 1 1 6000 3000 early"])
stage = Stage(head(LOOK, DEV))
stage.states((LONG, 2000), (SHORT, 3000), (LONG, 5000), (LONG, 8000))
check("the menu opens at its harmless entry", (stage.seq.state, stage.seq.menu_entry()), ("menu", st.STAY))


def done():
    """A stage whose run is done at 40 s, with a sheet picked by one tap."""
    stage = Stage(head(FIX))
    stage.states((LONG, 2000), (SHORT, 3000), (LONG, 4000), (SHORT, 6000), (SHORT, 40_000))
    return stage


stage = done()
check(
    "from done to the first title",
    (stage.states((SHORT, 42_000)), stage.seq.idle_entry()[2]),
    (["idle"], "TITLE"),
)
stage = done()
check(
    "the next print is for a new sheet", (stage.states((LONG, 42_000)), stage.seq.run.sheet), (["ready"], 2)
)
stage = done()
stage.seq.shelf.loaded = None
check(
    "a program lost meanwhile is refused",
    (stage.states((LONG, 42_000)), stage.seq.notice),
    (["idle"], "HASH"),
)
stage = armed(FIX)
stage.states((SHORT, 6000))
stage.event(st.TROUBLE, 8000, st.WET_PEDAL)
check(
    "a stray report in a fault has no rule",
    (stage.event(st.GATE, 9000, 10), told(stage, "# focus")),
    (False, []),
)
check("and the bath is still there", stage.states((LONG, 12_000)), ["bath"])
WHITE_FIX = bath("fix", 30_000, white=1)
stage = armed(DEV, WHITE_FIX, bath("rinse", 9000))
stage.states((SHORT, 6000), (SHORT, 60_000), (LONG, 62_000))
check(
    "between two steps in white light it stays white",
    (stage.seq.state, told(stage, "white")),
    ("ready", ["white 1"]),
)
finish()
