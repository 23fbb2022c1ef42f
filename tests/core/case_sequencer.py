"""Each rule of the pedal, one stage for each. Times in ms; a tap at t has touched 100 ms before."""

from checking import Stage, armed, bath, check, finish, head, lamp, light

from footlight_core import program
from footlight_core import states as st
from footlight_core.recovery import Recovery

PRESS, SHORT, LONG = st.PRESS, st.SHORT, st.LONG


DEV = bath("dev", 60_000, lift_ms=10_000)
FIX = bath("fix", 30_000)
SECOND = light(10_000, dead_ms=50)

# -- idle ------------------------------------------------------------------------------------------
stage = Stage(head(DEV))
check(
    "idle goes round its entries",
    [str(stage.seq.idle_entry()), stage.states((SHORT, 1000), (SHORT, 2000))],
    [str((1, "ab" * 32, "TITLE")), ["idle", "idle"]],
)
check("idle shows the last sheet", stage.states((LONG, 4000)), ["idle"])
check("arming asks for the sheet", Stage(head(DEV)).states((LONG, 2000), (LONG, 4000)), ["pick", "ready"])
check("a batch takes new sheets", Stage(head(SECOND, sheets=3)).states((LONG, 2000)), ["ready"])
check(
    "picking is given up after half a minute",
    Stage(head(DEV)).states((LONG, 2000), (SHORT, 40_000)),
    ["pick", "idle"],
)
stage = Stage(head(DEV), lambda loaded: st.FULL_FLASH)
check("a refusal is said", (stage.states((LONG, 2000)), stage.seq.notice), (["idle"], "FULL"))
stage = Stage(head(DEV))
stage.seq.shelf.loaded = None
check("a damaged program is refused", (stage.states((LONG, 2000)), stage.seq.notice), (["idle"], "HASH"))

stage = armed(DEV)
check(
    "a start too soon is told, and starts nothing",
    (
        stage.states((SHORT, 4450)),
        stage.seq.notice,
        [line for line in stage.take() if line[1] == "no"],
    ),
    (["ready"], "WAIT", [(4450, "no")]),
)
check("a moment later it starts", stage.states((SHORT, 4600)), ["bath"])

# -- light -----------------------------------------------------------------------------------------
check("a press starts nothing", armed(SECOND).states((PRESS, 6000)), ["ready"])
check("a release starts", armed(SECOND).states((PRESS, 6000), (SHORT, 6200)), ["ready", "lit"])
stage = armed(SECOND)
stage.event(SHORT, 6000)
stage.until(30_000)
check(
    "a light ends by itself, at lamp-on and its gate time",
    [line for line in stage.take() if line[1] in ("lamp on 10050", "gate low")],
    [(6000, "lamp on 10050"), (16050, "gate low")],
)
check("after the last step the run is done", stage.seq.state, "done")

stage = armed(SECOND, FIX)
stage.event(SHORT, 6000)
check("the press stops", stage.states((PRESS, 9050)), ["held"])
check("what is left", stage.seq.run.left_ms, 7000)
check("its own release resumes nothing", (stage.event(SHORT, 9300, 9025), stage.seq.state), (False, "held"))
check(
    "nor does a frightened long release", (stage.event(LONG, 12_000, 9025), stage.seq.state), (False, "held")
)
check(
    "a bounce within half a second resumes nothing",
    (stage.event(SHORT, 9500, 9400), stage.seq.state),
    (True, "held"),
)
check("a fresh tap resumes", stage.states((SHORT, 13_000)), ["lit"])
stage.until(30_000)
check(
    "resuming adds the dead time again",
    [line for line in stage.take() if line[1].startswith("lamp on")],
    [(6000, "lamp on 10050"), (13_000, "lamp on 7050")],
)

stage = armed(SECOND, FIX)
stage.event(SHORT, 6000)
stage.event(PRESS, 6030)
check("a stop within the dead time gave no light", stage.seq.run.left_ms, 10_000)
stage = armed(light(10_000, dead_ms=50, least_ms=100), FIX)
stage.event(SHORT, 6000)
stage.event(PRESS, 15_990)
check(
    "a remainder that the relay cannot do is said, not given",
    (stage.seq.state, stage.seq.notice),
    ("ready", "SHORT"),
)
check(
    "and recorded",
    [line[1] for line in stage.take() if line[1].startswith("# gave")],
    ["# gave 1 1 1 9990 9940 60 short"],
)
stage = armed(SECOND, FIX)
stage.event(SHORT, 6000)
stage.event(PRESS, 9050)
check("a fresh long press abandons the rest", stage.states((LONG, 12_000)), ["ready"])
check(
    "every intent is answered",
    [line[1] for line in stage.take() if line[1][:6] in ("# gave", "# inte")],
    ["# gave 1 1 1 3050 3000 7000 held", "# intent 1 1 1 7000 7050", "# gave 1 1 1 0 0 7000 abandoned"],
)

stage = armed(light(1000, settle_ms=6000))
check("a wet sheet settles first", (stage.states((SHORT, 6000)), stage.seq.notice), (["ready"], "WAIT"))
check("and then", stage.states((SHORT, 10_200)), ["lit"])
stage = armed(light(5000), light(5000), lamps=[lamp(window_ms=8000)])
stage.event(SHORT, 6000)
check("the lamp must cool", (stage.states((SHORT, 20_000)), stage.seq.notice), (["ready"], "COOL"))
check("until ten minutes have passed", stage.states((SHORT, 611_100)), ["lit"])
stage = armed(SECOND)
stage.event(SHORT, 6000)
stage.gate_off_ms = None
check(
    "a gate that does not report is a fault",
    (stage.until(20_000), stage.seq.state, stage.seq.fault_code)[1:],
    ("fault", st.LOST_GATE),
)
check("what it gave is unknown: counted whole, not repeated", stage.states((LONG, 22_000)), ["done"])

# -- baths -----------------------------------------------------------------------------------------
check(
    "before the lift a tap does nothing", armed(DEV).states((SHORT, 6000), (SHORT, 30_000)), ["bath", "bath"]
)
check(
    "in the lift a tap ends it and begins the next",
    armed(DEV, FIX).states((SHORT, 6000), (SHORT, 60_000)),
    ["bath", "bath"],
)
check("but a light only waits", armed(DEV, SECOND).states((SHORT, 6000), (SHORT, 60_000)), ["bath", "ready"])
check(
    "a foot down since before the lift does not end it",
    (lambda stage: (stage.event(SHORT, 6000), stage.event(SHORT, 56_500, 55_900), stage.seq.state))(
        armed(DEV, FIX)
    )[1:],
    (False, "lift"),
)
check(
    "a foot down as the time runs out still counts",
    (lambda stage: (stage.event(SHORT, 6000), stage.event(SHORT, 66_300, 65_900), stage.seq.state))(
        armed(DEV, FIX)
    )[1:],
    (True, "bath"),
)
stage = armed(FIX, DEV)
stage.event(SHORT, 6000)
stage.until(48_000)
check(
    "three rings, then a soft one each five seconds",
    [line for line in stage.take() if line[1] in ("time", "over")],
    [(36_000, "time"), (37_000, "time"), (38_000, "time"), (43_000, "over"), (48_000, "over")],
)
stage.event(SHORT, 49_000)
check(
    "over time is recorded as it was",
    [line[1] for line in stage.take() if line[1].startswith("# step")],
    ["# step 1 1 1 6000 43000 pedal"],
)
check(
    "long in over-time does nothing",
    (lambda stage: stage.states((SHORT, 6000), (LONG, 40_000)))(armed(FIX)),
    ["bath", "over"],
)
check("long ends a bath early", armed(FIX, DEV).states((SHORT, 6000), (LONG, 9000)), ["bath", "ready"])
check(
    "a bath may follow by itself",
    armed(FIX, bath("wash", 5000, auto=1)).states((SHORT, 6000), (PRESS, 37_000)),
    ["bath", "bath"],
)
stage = armed(bath("wash", 60_000, aside=1), FIX)
check(
    "a wash blocks nothing",
    stage.states((SHORT, 6000), (SHORT, 8000), (SHORT, 40_000)),
    ["ready", "bath", "done"],
)
stage.until(70_000)
check("and rings when it is done", [line for line in stage.take() if line[1] == "wash"], [(66_000, "wash")])
stage = armed(
    bath("dev", 90_000, lift_ms=10_000, stir_first_ms=20_000, stir_every_ms=30_000, stir_for_ms=5000)
)
stage.event(SHORT, 6000)
stage.until(95_000)
check(
    "agitation keeps its beat",
    [line for line in stage.take() if line[1] in ("stir", "still")],
    [(6000, "stir"), (26_000, "still"), (56_000, "stir"), (61_000, "still")],
)
stage = armed(
    {
        "kind": "hand",
        "name": "rinse",
        "show": "RINSE",
        "time_ms": 20_000,
        "cues": [[0, "SHAKE"], [9000, "DUMP"]],
    }
)
stage.event(SHORT, 6000)
stage.until(27_500)
check(
    "cues of a step by hand",
    [line for line in stage.take() if line[1] in ("cue", "time")],
    [(6000, "cue"), (15_000, "cue"), (26_000, "time"), (27_000, "time")],
)

# -- judged by eye, pauses, menu -------------------------------------------------------------------
JUDGE = {"kind": "judge", "name": "clear", "show": "CLEAR", "least_ms": 20_000, "most_ms": 60_000}
check(
    "not before its least time",
    armed(JUDGE, FIX).states((SHORT, 6000), (SHORT, 20_000)),
    ["judged", "judged"],
)
check("after it, a tap ends it", armed(JUDGE, FIX).states((SHORT, 6000), (SHORT, 26_100)), ["judged", "bath"])
check("long leaves it", armed(JUDGE, FIX).states((SHORT, 6000), (LONG, 9000)), ["judged", "ready"])
stage = armed(JUDGE, FIX)
stage.event(SHORT, 6000)
stage.until(68_500)
check(
    "past its most time it rings",
    [line for line in stage.take() if line[1] == "time"],
    [(66_000, "time"), (67_000, "time"), (68_000, "time")],
)
LOOK = {"kind": "pause", "name": "look", "show": "LOOK"}
check(
    "a pause is read, then the next step waits",
    armed(FIX, LOOK, DEV).states((SHORT, 6000), (SHORT, 37_000), (SHORT, 40_000)),
    ["bath", "paused", "ready"],
)
stage = armed(DEV, FIX)
check(
    "a leaning foot opens a menu and chooses nothing",
    stage.states((LONG, 8000), (LONG, 10_000)),
    ["menu", "ready"],
)
check("the menu closes by itself", stage.states((LONG, 12_000), (PRESS, 17_100)), ["menu", "ready"])
check(
    "skip",
    (stage.states((LONG, 20_000), (SHORT, 21_000), (SHORT, 22_000), (LONG, 24_000)), stage.seq.run.index),
    (["menu", "menu", "menu", "ready"], 1),
)
check(
    "back",
    (stage.states((LONG, 30_000), (SHORT, 31_000), (LONG, 33_000)), stage.seq.run.index),
    (["menu", "menu", "ready"], 0),
)
check(
    "leave",
    stage.states(
        (LONG, 40_000), (SHORT, 41_000), (SHORT, 42_000), (SHORT, 43_000), (SHORT, 44_000), (LONG, 46_000)
    ),
    ["menu"] * 5 + ["idle"],
)
check(
    "a double tap starts one thing",
    (lambda stage: (stage.event(SHORT, 6000), stage.event(SHORT, 6300), stage.seq.state))(
        armed(JUDGE | {"least_ms": 0} if False else dict(JUDGE, least_ms=0), FIX)
    )[2],
    "judged",
)

# -- batch, next sheet -----------------------------------------------------------------------------
stage = armed(light(1000), sheets=2)
check(
    "a batch goes on to the next sheet",
    (stage.states((SHORT, 6000), (PRESS, 8000)), stage.seq.run.sheet),
    (["lit", "ready"], 2),
)
stage.event(SHORT, 9000)
stage.until(12_000)
check("and its sheets wait for their run", (stage.seq.state, stage.seq.ledger.waiting), ("done", [1, 2]))
stage = armed(FIX)
stage.states((SHORT, 6000), (SHORT, 40_000))
check(
    "from done, long arms the next sheet",
    (stage.states((LONG, 44_000)), stage.seq.run.sheet, stage.seq.run.number),
    (["ready"], 2, 2),
)

# -- white light -----------------------------------------------------------------------------------
WHITE_FIX = bath("fix", 30_000, white=1)
BACK = ((LONG, 2000), (SHORT, 3000), (LONG, 5000))


def whites(stage):
    """What happened to the white light since the last look."""
    return [line[1] for line in stage.take() if line[1].startswith("white")]


stage = armed(DEV, WHITE_FIX, bath("rinse", 9000))
stage.states((SHORT, 6000), (SHORT, 60_000))
check("white light from its step on", whites(stage), ["white 1"])
stage.states((LONG, 62_000), *[(event, 64_000 + ms) for event, ms in BACK])
check(
    "back to the step that permits it: the sheet stands before it",
    (stage.seq.run.index, whites(stage)),
    (1, ["white 0"]),
)
stage.states(*[(event, 72_000 + ms) for event, ms in BACK])
check("further back it stays locked", (stage.seq.run.index, whites(stage)), (0, []))
stage = armed(WHITE_FIX)
stage.states((SHORT, 6000), (SHORT, 40_000))
check("after the run it stays", (stage.seq.state, whites(stage)), ("done", ["white 1"]))
stage.event(st.TROUBLE, 42_000, st.WET_PEDAL)
check("a fault locks it", whites(stage), ["white 0"])
stage = armed(DEV, WHITE_FIX)
stage.states((SHORT, 6000), (SHORT, 60_000), (LONG, 62_000))
stage.take()
stage.states((LONG, 66_000))
check(
    "the next sheet locks it",
    (stage.seq.state, stage.seq.run.sheet, whites(stage)),
    ("ready", 2, ["white 0"]),
)
stage = Stage(head(DEV, WHITE_FIX))
cut = Recovery()
cut.run, cut.sheet, cut.first_sheet, cut.step = 1, 1, 1, 2
stage.seq.resume_broken(program.check(head(DEV, WHITE_FIX)), cut, 0)
stage.event(st.TROUBLE, 1000, st.LEANING_FOOT)
check(
    "a fault that is acknowledged leaves an interrupted run locked",
    (stage.states((LONG, 6000)), whites(stage)),
    (["broken"], []),
)

# -- faults ----------------------------------------------------------------------------------------
stage = armed(SECOND, FIX)
stage.event(SHORT, 6000)
stage.event(st.TROUBLE, 8050, st.NO_LIGHT)
check(
    "a fault in a light is dark at once",
    [line for line in stage.take() if line[1] in ("gate low", "lamp off 0")],
    [(8050, "lamp off 0"), (8050, "gate low")],
)
check("a tap does not leave it", stage.states((SHORT, 9000)), ["fault"])
check(
    "a long press does, to what is left",
    (stage.states((LONG, 12_000)), stage.seq.run.left_ms),
    (["held"], 8000),
)
stage = armed(DEV, FIX)
stage.event(SHORT, 6000)
stage.event(st.TROUBLE, 20_000, st.WET_PEDAL)
check(
    "after a fault the bath's clock has gone on",
    stage.states((LONG, 70_000), (PRESS, 70_001)),
    ["bath", "over"],
)
stage = Stage(head(DEV))
stage.states((SHORT, 1000), (LONG, 3000), (SHORT, 5000))
check("the set-up light", stage.seq.state, "focus lit")
check(
    "goes off at a press, and leaves by a long one",
    stage.states((PRESS, 8000), (LONG, 11_000)),
    ["focus", "idle"],
)
check(
    "its records",
    [line[1] for line in stage.take() if line[1].startswith("#")],
    ["# intent 0 0 0 120000 120000", "# focus 3000", "# intent 0 0 0 120000 120000", "# focus 0"],
)
finish()
