"""What the journal tells after a reset."""

from checking import check, finish

from footlight_core.recovery import Recovery

ARM = {"k": "arm", "run": 7, "slot": 1, "sha": "ab", "title": "T", "sheet": 41, "sheets": 1}
BOOT = {"k": "boot", "reason": 0, "value": 0, "build": 1, "fresh": 0}


def begin(step):
    return {"k": "begin", "run": 7, "step": step, "sheet": 41}


def done(step):
    return {"k": "step", "run": 7, "step": step, "sheet": 41, "start": 0, "real_ms": 1, "how": "pedal"}


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
    ("a run that ended", (BOOT, ARM, begin(1), done(1), END), (0, 1, 0, 0)),
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
    ("cut after a light was abandoned", (ARM, intent(1, 9000), gave(1, 0, 9000, "abandoned")), (7, 1, 0, 0)),
    (
        "cut twice in one light",
        (
            ARM,
            intent(1, 9000),
            {"k": "cut", "run": 7, "step": 1, "sheet": 41, "least_ms": 0, "most_ms": 9000},
            intent(1, 9000),
        ),
        (7, 1, 0, 18_000),
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
    check(name, (state.run, state.step, state.least_ms, state.most_ms), wanted)

state = Recovery()
for record in (ARM, intent(1, 10_000), gave(1, 3000, 7000, "held"), intent(1, 7000)):
    state.feed(record)
state.tighten(2000, 2100)
check("a register that a reset keeps tightens the bounds", (state.least_ms, state.most_ms), (5000, 5100))
check("numbers that outlive the run", (state.last_run, state.last_sheet), (7, 41))
finish()
