"""What comes about seldom: the ends of tables, full queues, ways through the menu that few feet take."""

from checking import SHA, SOUNDS, Stage, bath, check, finish, head, light

from footlight_core import effects as fx
from footlight_core import gestures as g
from footlight_core import program, recovery
from footlight_core import states as st
from footlight_core.errors import ProgramError
from footlight_core.run import Ledger

PRESS, SHORT, LONG = st.PRESS, st.SHORT, st.LONG
FIX = bath("fix", 30_000)
SECOND = light(10_000, dead_ms=50)


def armed(*steps):
    """A stage armed for sheet 1 at 4 s, with its trace emptied."""
    stage = Stage(head(*steps))
    stage.states((LONG, 2000), (LONG, 4000))
    stage.take()
    return stage


def lines(stage, *begins):
    """What was recorded since the last look, of these kinds."""
    return [line[1] for line in stage.take() if line[1].startswith(begins)]


# -- the queue of effects --------------------------------------------------------------------------
queue = fx.Effects()
pushed = 0
try:
    while pushed < 1000:
        queue.push(fx.KEEP)
        pushed += 1
    check("a queue that is full", "takes more", "refuses")
except IndexError:
    check("a queue that is full keeps what it has", queue.count, pushed)
try:
    queue.note(fx.KEEP, 1, 1)
    check("a record for a full queue", "taken", "refused")
except IndexError:
    check("nor does it take a record", queue.count, pushed)
queue.clear()
check("and is empty again", queue.count, 0)

# -- words, numbers, sounds ------------------------------------------------------------------------
check("a fault has its word", st.fault_word(st.WET_PEDAL), "WET")
check("a number that is no fault is shown as it is", st.fault_word(99), "E99")

ledger = Ledger()
check("the first sheet", ledger.candidates(), [1])
ledger.take(1)
check("a new sheet, or the last one again", ledger.candidates(), [2, 1])
ledger.wait(1)
ledger.wait(1)
check("a sheet waits once, and is not offered twice", ledger.candidates(), [1, 2])
ledger.take(1)
check("a sheet whose run begins waits no longer", ledger.waiting, [])
for sheet in range(100, 200):
    ledger.wait(sheet)
check("no more wait than there is room for", (len(ledger.waiting), ledger.waiting[0]), (64, 100))

# -- menu and faults with a light that waits -------------------------------------------------------
stage = armed(SECOND, FIX)
check("a run is not idle", stage.seq.is_idle(), False)
check("a menu that is left as it was", stage.states((LONG, 8000), (LONG, 10_000)), ["menu", "ready"])
check("announces no second light", lines(stage, "# intent"), [])
check(
    "a light that is skipped",
    (stage.states((LONG, 12_000), (SHORT, 13_000), (SHORT, 14_000), (LONG, 16_000)), stage.seq.run.index),
    (["menu", "menu", "menu", "ready"], 1),
)
check("has its answer", lines(stage, "# gave", "# step"), ["# gave 1 1 1 0 0 10000 skipped"])

stage = armed(SECOND, FIX)
stage.states((SHORT, 6000), (PRESS, 9050))
stage.take()
stage.event(st.TROUBLE, 10_000, st.WET_PEDAL)
check("a fault between two halves of a light leads back", stage.states((LONG, 14_000)), ["held"])
check("to the light that was announced", (stage.seq.run.left_ms, lines(stage, "# intent")), (7000, []))

many = [bath("wash", 3_600_000, show="W%d" % number, aside=1) for number in range(6)]
stage = armed(*many)
for number in range(6):
    stage.event(SHORT, 6000 + 1000 * number)
shown = [clock[1] for clock in stage.seq.aside]
check(
    "of too many clocks beside the run the newest stay", shown, ["W%d" % n for n in range(6)][-len(shown) :]
)
check("and the run is done all the same", (len(shown) < 6, stage.seq.state), (True, "done"))
check("done is idle", stage.seq.is_idle(), True)

# -- the foot --------------------------------------------------------------------------------------
UP, DOWN = (False, True), (True, False)


def walk(changes, until_ms):
    """Contacts from time to time -> events, looked at only when they change or the gestures ask for it."""
    foot, events, now_ms = g.Gestures(), [], 0
    contacts = changes[0][1]
    while now_ms <= until_ms:
        for at_ms, wanted in changes:
            if at_ms <= now_ms:
                contacts = wanted
        event = foot.feed(now_ms, contacts[0], contacts[1])
        if event != g.NONE:
            events.append((now_ms, event))
        due = [at_ms for at_ms, _ in changes if at_ms > now_ms]
        if foot.due_ms() != g.NEVER_MS:
            due.append(foot.due_ms())
        if not due:
            break
        now_ms = max(min(due), now_ms + 1)
    return events


check("down from the start: asked for at ten seconds", walk(((0, DOWN),), 11_000), [(10_000, g.STUCK)])
chatter = [(100, DOWN), (1300, UP)]
for beat in range(4):
    chatter += [(1330 + 60 * beat, DOWN), (1360 + 60 * beat, UP)]
events = walk([(0, UP)] + chatter, 3000)
check("chatter after a long press is told at the ninth change, a release", events[-1], (1565, g.WET))
check("until then there were presses", [event for _, event in events[:3]], [g.PRESS, g.COUNTS, g.LONG])

foot = g.Gestures()
brief = []
for now_ms in range(2001):
    foot.feed(now_ms, 100 <= now_ms, now_ms < 100)
    brief.append(foot.is_brief())
check("a press is brief from when it is sure to when it counts", (brief.index(True), sum(brief)), (125, 975))

# -- programs --------------------------------------------------------------------------------------
HAND = {"kind": "hand", "name": "h", "show": "H", "time_ms": 9000}


def refused(raw):
    """Step, key and what is allowed instead."""
    try:
        program.check(raw)
    except ProgramError as error:
        return (error.step, error.key, error.allowed)
    return "fine"


untitled = head(FIX)
untitled.pop("title")
check("a title is missing", refused(untitled), (0, "title", "text of 1 to 6 characters"))
for name, cue in (("no pair", [0]), ("no time", ["0", "SHAKE"]), ("no text", [0, 5]), ("no list", 7)):
    check("cues: " + name, refused(head(dict(HAND, cues=[cue]))), (1, "cues", "[ms, text] pairs"))
for text in ("", "SEVENTH"):
    wanted = (1, "cues", "texts of 1 to 6 characters")
    check("cues: %d characters" % len(text), refused(head(dict(HAND, cues=[[0, text]]))), wanted)

# -- after a reset ---------------------------------------------------------------------------------
state = recovery.Recovery()
state.feed({"k": "intent", "run": 0, "step": 0, "sheet": 0, "light_ms": 9, "gate_ms": 9, "sha": SHA[:16]})
check("cut in the set-up light", (state.focus_open, state.run), (True, 0))
state.feed({"k": "cut", "run": 0, "step": 0, "sheet": 0, "least_ms": 0, "most_ms": 9})
check("which is told once", state.focus_open, False)
state.feed({"k": "intent", "run": 0, "step": 0, "sheet": 0, "light_ms": 9, "gate_ms": 9, "sha": ""})
state.feed({"k": "focus", "gate_ms": 5})
check("a set-up light whose end is known is not cut", state.focus_open, False)
check("every sound has its name", len(SOUNDS), len(set(SOUNDS)))
finish()
