"""What the journal tells after a reset."""

from checking import check, finish

from footlight_core.recovery import Recovery

ARM = {"k": "arm", "run": 7, "slot": 1, "sha": "ab", "title": "T", "sheet": 41, "sheets": 1}
BOOT = {"k": "boot", "reason": 0, "value": 0, "build": 1, "fresh": 0}


def begin(step):
    return {"k": "begin", "run": 7, "step": step, "sheet": 41}


def done(step, how="pedal"):
    return {"k": "step", "run": 7, "step": step, "sheet": 41, "start": 0, "real_ms": 1, "how": how}


def cut(step, least_ms, most_ms, sheet=41):
    return {"k": "cut", "run": 7, "step": step, "sheet": sheet, "least_ms": least_ms, "most_ms": most_ms}


def move(step):
    return {"k": "move", "run": 7, "step": step, "sheet": 41}


def intent(step, light_ms):
    return {
        "k": "intent",
        "run": 7,
        "step": step,
        "sheet": 41,
        "light_ms": light_ms,
        "gate_ms": light_ms + 50,
        "sha": "ab",
    }


def gave(step, light_ms, left_ms, how):
    return {
        "k": "gave",
        "run": 7,
        "step": step,
        "sheet": 41,
        "gate_ms": light_ms + 50,
        "light_ms": light_ms,
        "left_ms": left_ms,
        "how": how,
    }


END = {"k": "end", "run": 7, "sheet": 41, "how": "whole"}

# name, records, (run, step, least ms, most ms)
CASES = (
    ("nothing", (), (0, 0, 0, 0)),
    ("a run that ended", (BOOT, ARM, begin(1), done(1), END), (0, 2, 0, 0)),
    ("cut while armed", (BOOT, ARM), (7, 1, 0, 0)),
    ("cut in a bath", (BOOT, ARM, begin(1), done(1), begin(2)), (7, 2, 0, 0)),
    ("cut with a light ready or lit", (ARM, begin(1), done(1), intent(2, 10_000)), (7, 2, 0, 10_000)),
    (
        "cut after a stop",
        (ARM, intent(1, 10_000), gave(1, 3000, 7000, "held"), intent(1, 7000)),
        (7, 1, 3000, 10_000),
    ),
    (
        "cut after a whole light",
        (ARM, intent(1, 10_000), gave(1, 10_000, 0, "whole"), begin(2)),
        (7, 2, 0, 0),
    ),
    # At rest: what has ended is behind the run, and nothing of it is offered again.
    ("cut after a light given whole", (ARM, intent(1, 9000), gave(1, 9000, 0, "whole")), (7, 2, 0, 0)),
    ("cut after a light was abandoned", (ARM, intent(1, 9000), gave(1, 0, 9000, "abandoned")), (7, 2, 0, 0)),
    ("cut after a short light", (ARM, intent(1, 9000), gave(1, 8990, 10, "short")), (7, 2, 0, 0)),
    ("cut after a skipped light", (ARM, intent(1, 9000), gave(1, 0, 9000, "skipped")), (7, 2, 0, 0)),
    (
        "cut after a light whose end was not reported, and counts as whole",
        (ARM, intent(1, 9000), gave(1, 9000, 0, "broken")),
        (7, 2, 0, 0),
    ),
    (
        "cut after a fault in a light",
        (ARM, intent(1, 9000), gave(1, 3000, 6000, "broken")),
        (7, 1, 3000, 3000),
    ),
    ("cut between a stop and its rest", (ARM, intent(1, 9000), gave(1, 300, 8700, "held")), (7, 1, 300, 300)),
    ("cut after a bath", (ARM, begin(1), done(1)), (7, 2, 0, 0)),
    ("cut after a skipped bath", (ARM, done(1, "skipped")), (7, 2, 0, 0)),
    ("cut after a wash begun beside", (ARM, begin(1), done(1, "aside")), (7, 2, 0, 0)),
    ("cut after the way back", (ARM, begin(1), done(1), begin(2), done(2), move(2)), (7, 2, 0, 0)),
    (
        "cut after the way back to a light: what it had before is not of this time",
        (ARM, intent(1, 9000), gave(1, 9000, 0, "whole"), move(1), intent(1, 9000)),
        (7, 1, 0, 9000),
    ),
    ("cut twice in one light", (ARM, intent(1, 9000), cut(1, 0, 9000), intent(1, 9000)), (7, 1, 0, 18_000)),
    (
        "cut three times in one light: what is sure stays sure",
        (
            ARM,
            intent(1, 9000),
            gave(1, 2000, 7000, "held"),
            intent(1, 7000),
            cut(1, 2000, 9000),
            cut(1, 2000, 9000),
            intent(1, 7000),
            cut(1, 2000, 16_000),
        ),
        (7, 1, 2000, 16_000),
    ),
    ("cut twice at rest", (ARM, intent(1, 900), gave(1, 900, 0, "whole"), cut(2, 0, 0)), (7, 2, 0, 0)),
    (
        "cut twice after the way back: the cut tells all that it had",
        (
            ARM,
            intent(1, 9000),
            gave(1, 9000, 0, "whole"),
            move(1),
            intent(1, 9000),
            cut(1, 9000, 18_000),
        ),
        (7, 1, 0, 9000),
    ),
    (
        "cut before the next sheet of a batch",
        (ARM, intent(1, 900), gave(1, 900, 0, "whole"), cut(1, 0, 0, 42)),
        (7, 1, 0, 0),
    ),
    (
        "the next sheet of a batch",
        (ARM, intent(1, 900), gave(1, 900, 0, "whole"), dict(intent(1, 900), sheet=42)),
        (7, 1, 0, 900),
    ),
)
for name, records, wanted in CASES:
    state = Recovery()
    for record in records:
        state.feed(record)
    check(name, (state.run, state.step, state.least_ms(), state.most_ms()), wanted)

state = Recovery()
for record in (ARM, intent(1, 10_000), gave(1, 3000, 7000, "held"), intent(1, 7000)):
    state.feed(record)
state.tighten(2000, 2100)
check("a register that a reset keeps tightens the bounds", (state.least_ms(), state.most_ms()), (5000, 5100))
check("numbers that outlive the run", (state.last_run, state.last_sheet), (7, 41))

# -- all that the sheet has had, over every time that the run came to the step ----------------------
state = Recovery()
for record in (ARM, intent(1, 9000), gave(1, 9000, 0, "whole"), move(1), intent(1, 9000)):
    state.feed(record)
check("bounds of both times", (state.tally.least_ms(1), state.tally.most_ms(1)), (9000, 18_000))
state.come_to(2, 41)
check("which stay when it goes on", (state.tally.least_ms(1), state.least_ms(), state.open_ms), (9000, 0, 0))
state.come_to(1, 42)
check("and are not of the next sheet", (state.tally.most_ms(1), state.last_sheet), (0, 42))

# -- a record that is damaged ------------------------------------------------------------------------
state = Recovery()
state.miss()
check("before any run it is of none", state.has_gap, False)
state.feed(ARM)
state.miss()
state.feed(intent(1, 9000))
check("in a run nobody knows what it told", state.has_gap, True)
state.feed(cut(1, 0, 9000))
check("until a cut has told it", state.has_gap, False)
state.miss()
state.feed(ARM)
check("or another run is armed", state.has_gap, False)
finish()
