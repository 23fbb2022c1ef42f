"""The numbers of sheets and runs, and where a run stands: `run` alone."""

from checking import Stage, bath, check, finish, head, light, told

from footlight_core import program
from footlight_core import states as st
from footlight_core.run import NO_STEP, Ledger, Run

# -- which sheets are offered -----------------------------------------------------------------------
check("nothing written yet: sheet 1 only", Ledger().candidates(), [1])
check("waiting, new, last", Ledger(9, 3, (4, 6), 8).candidates(), [4, 6, 9, 8])
check("none twice", Ledger(9, 3, (4, 6), 6).candidates(), [4, 6, 9])
ledger = Ledger(9, 3, (4, 6), 8)
ledger.take(4)
check(
    "taken: waits no more, and is the last",
    (ledger.waiting, ledger.last_sheet, ledger.next_sheet),
    ([6], 4, 9),
)
ledger.take(20)
check("numbers go on after the highest", ledger.next_sheet, 21)
ledger.wait(6)
check("no sheet waits twice", ledger.waiting, [6])
check("used elsewhere too: news", (ledger.count_on(30), ledger.next_sheet), (True, 31))
check("told again: none", (ledger.count_on(30), ledger.next_sheet), (False, 31))
check("the next one itself", (ledger.count_on(31), ledger.next_sheet), (True, 32))
check("never back", (ledger.count_on(3), ledger.next_sheet), (False, 32))
for sheet in range(100, 170):
    ledger.wait(sheet)
check("no more than 64 wait", (len(ledger.waiting), ledger.waiting[-1]), (64, 162))

# -- where a run stands -----------------------------------------------------------------------------
STEPS = program.check(head(bath("dev", 60_000), light(5000), bath("wash", 5000)))
run = Run()
check("a new run is of no program", (run.slot, run.sha, run.number, run.sheet), (0, "", 0, 0))
check("it stands at the start", (run.sheet_index, run.index, run.start_ms, run.intent_open), (0, 0, 0, False))
check("and has given nothing", (run.left_ms, run.lit_left_ms, run.light_ms, run.gate_ms), (0, 0, 0, 0))
check("what is not there never begins by itself", NO_STEP["auto"], 0)
check(
    "without a program: no step, no white light",
    (run.step(), run.next_step(), run.white_allowed(True)),
    (NO_STEP, NO_STEP, False),
)
check("nor is anything known of a cut", (run.least_ms, run.most_ms), (0, 0))
run.load(STEPS, 1, "ab", 7, 41)
check(
    "loaded: the first step",
    (run.index, run.sheet_index, run.number, run.sheet, run.intent_open),
    (0, 0, 7, 41, False),
)
check("and the one after it", (run.step()["name"], run.next_step()["kind"]), ("dev", "light"))
run.index, run.sheet_index, run.intent_open, run.light_ms = 1, 1, True, 3000
check("after a light the wash", run.next_step()["name"], "wash")
run.begin_light()
check("a light begins with nothing given", (run.left_ms, run.light_ms), (5000, 0))
run.least_ms, run.most_ms = 1000, 2000
run.tally.add(2, 1000, 2000)
run.go_to(1)
check(
    "come to anew, all of it is to be given", (run.least_ms, run.most_ms, run.tally.most_ms(2)), (0, 0, 2000)
)
run.load(STEPS, 1, "ab", 8, 42)
check("loaded again: from the start", (run.index, run.sheet_index, run.intent_open), (0, 0, False))
check("and of another sheet nothing is known", (run.tally.least_ms(2), run.tally.most_ms(2)), (0, 0))
cut = Run()
cut.load(STEPS, 1, "ab", 1, 1)
cut.go_to(1)
cut.least_ms = cut.most_ms = 6000
check(
    "had more than all: nothing is missing", (cut.missing_ms(), cut.rest_ms(), cut.is_spent()), (0, 0, True)
)
for had_ms, spent in ((0, False), (1, False), (4980, False), (4981, True)):
    cut.least_ms = cut.most_ms = had_ms
    check("after %d of 5000 ms" % had_ms, (cut.is_spent(), cut.is_doubtful()), (spent, False))
cut.load(program.check(head(light(10, least_ms=20))), 1, "ab", 1, 1)
check("a light shorter than its relay can do is not spent before it began", cut.is_spent(), False)
cut.least_ms = cut.most_ms = 1
check("but then it is", cut.is_spent(), True)
run.load(None, 1, "ab", 9, 43)
check("a lost program has no step", (run.step(), run.next_step()), (NO_STEP, NO_STEP))
run.load(STEPS, 1, "ab", 9, 43)
run.index = 2
run.focus()
check(
    "the set-up light belongs to no run",
    (run.number, run.sheet, run.index, run.sha, run.step()),
    (0, 0, 0, "", NO_STEP),
)
check("and its end must be told", run.intent_open, True)
run.forget()
check("forgotten: nothing to be told", run.intent_open, False)
stage = Stage(head(bath("dev", 60_000)))
stage.event(st.TROUBLE, 1000, st.WET_PEDAL)
check("a fault before any run names none", told(stage, "# fault"), ["# fault 0 1 3"])
finish()
