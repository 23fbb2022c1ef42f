"""What the controller accepts, and what it says of the rest."""

import json

from checking import bath, check, finish, head, lamp, light

from footlight_core import program
from footlight_core.errors import ProgramError


def verdict(raw):
    """`fine`, or what is wrong."""
    try:
        program.check(raw)
    except ProgramError as error:
        return (error.step, error.key)
    return "fine"


def read(data):
    """The same for bytes."""
    try:
        program.parse(data)
    except ProgramError as error:
        return (error.step, error.key)
    return "fine"


DEV = bath("dev", 60_000)
PAUSE = {"kind": "pause", "name": "look", "show": "LOOK"}
CASES = (
    ("one bath", head(DEV), "fine"),
    ("a light within its caps", head(light(9_000, dead_ms=50)), "fine"),
    ("a step named as a rule is", json.loads(json.dumps(head(bath("required", 60_000)))), "fine"),
    ("no object", [], (0, "value")),
    ("an unknown key", head(DEV, tittle="X"), (0, "tittle")),
    ("another version", head(DEV, v=2), (0, "v")),
    ("no steps", head(), (0, "steps")),
    ("too many steps", head(*[DEV] * 41), (0, "steps")),
    ("a title of seven", head(DEV, title="SEVENTH"), (0, "title")),
    ("a title too wide", head(DEV, title="MMMMMM"), (0, "title")),
    ("a letter that the font lacks", head(DEV, title="a"), (0, "title")),
    ("true is no number", head(DEV, sheets=True), (0, "sheets")),
    ("no such kind", head({"kind": "dance"}), (1, "kind")),
    ("a kind that is a list", head({"kind": []}), (1, "kind")),
    ("a bath of no time", head(bath("dev", 0)), (1, "time_ms")),
    ("negative time", head(bath("dev", -5)), (1, "time_ms")),
    ("a lift as long as the bath", head(bath("dev", 5000, lift_ms=5000)), (1, "lift_ms")),
    (
        "agitation longer than its interval",
        head(bath("dev", 90_000, stir_every_ms=5000, stir_for_ms=5000)),
        (1, "stir_for_ms"),
    ),
    ("a first step that starts by itself", head(bath("dev", 5000, auto=1)), (1, "auto")),
    ("a light that starts by itself", head(DEV, light(1000, auto=1)), (2, "auto")),
    ("a light without its lamp", head(light(1000, lamp=1)), (1, "lamp")),
    ("a light over the lamp's cap", head(light(60_001)), (1, "time_ms")),
    ("a light whose dead time takes it over the cap", head(light(60_000, dead_ms=1)), (1, "time_ms")),
    ("a light over the ten minutes' cap", head(light(2001), lamps=[lamp(window_ms=2000)]), (1, "time_ms")),
    ("a light over every cap", head(light(120_001), lamps=[lamp(cap_ms=120_000)]), (1, "time_ms")),
    ("a lamp over every cap", head(DEV, lamps=[lamp(cap_ms=120_001)]), (0, "cap_ms")),
    ("white light in a batch", head(bath("fix", 5000, white=1), sheets=2), (1, "white")),
    (
        "least above most",
        head({"kind": "judge", "name": "j", "show": "J", "least_ms": 5000, "most_ms": 5000}),
        (1, "least_ms"),
    ),
    (
        "cues in order",
        head(
            {
                "kind": "hand",
                "name": "h",
                "show": "H",
                "time_ms": 9000,
                "cues": [[0, "SHAKE"], [4000, "DUMP"]],
            }
        ),
        "fine",
    ),
    (
        "cues out of order",
        head(
            {
                "kind": "hand",
                "name": "h",
                "show": "H",
                "time_ms": 9000,
                "cues": [[4000, "SHAKE"], [4000, "DUMP"]],
            }
        ),
        (1, "cues"),
    ),
    ("a pause", head(PAUSE), "fine"),
    ("control characters", head(bath("de\x1bv", 5000, show="DEV")), (1, "name")),
)
for name, raw, wanted in CASES:
    check(name, verdict(raw), wanted)

check("bytes", read(json.dumps(head(DEV)).encode()), "fine")
check("not JSON", read(b"{"), (0, "text"))
check("not text", read(b"\xff\xfe"), (0, "text"))
check("too long", read(b" " * 6145), (0, "length"))
filled = program.check(head(DEV))
check("defaults are filled in", (filled["sheets"], filled["steps"][0]["auto"]), (1, 0))
check("white from the end when no step permits it", program.white_from(filled), 1)

IN_TRAY = (("bath", 1), ("hand", 1), ("judge", 1), ("light", 0), ("pause", 0), ("unknown", 0))
check(
    "where the sheet lies in a tray",
    [(kind, int(program.in_tray({"kind": kind}))) for kind, _ in IN_TRAY],
    list(IN_TRAY),
)
check("not where the step is dry", program.in_tray({"kind": "hand", "dry": 1}), False)
finish()
