"""Every key of a sequence file."""

from typing import Literal, get_args

from footlight.sequence import readers as read
from footlight.sequence.dose import dose
from footlight.sequence.keys import Key
from footlight_core.program import BATH_CAP_MS, LIGHT_CAP_MS, MAX_SHEETS, NAME_CHARS

SETUPS_FILE = "light-setups.toml"
StepKind = Literal["bath", "light", "by hand", "until pressed", "pause"]
KINDS: tuple[StepKind, ...] = get_args(StepKind)
AFTER = ("pedal", "auto")
ONE_SHEET = "one sheet"
MOST_CUES = 12

HEAD = (
    Key("title", read.shown(6, '"PRINT"'), "what the controller shows to choose it by"),
    Key("name", read.name(example='"reversal print"'), "its full name"),
    Key("step", read.table("[[step]]"), "a table for each step, in order; 1 to 40 of them"),
    Key(
        "sheets",
        read.whole(1, MAX_SHEETS, "8"),
        "all steps are done for each of so many sheets, one after the other (a batch)",
        1,
        "1",
    ),
    Key(
        "sheet", read.sheet("8x10"), "size of the paper; a tray that is too small is said", None, "not known"
    ),
    Key(
        "setups",
        read.label(f'"{SETUPS_FILE}"'),
        "the light-setups file, in this folder or below it; read only if there is a light",
        SETUPS_FILE,
        f'"{SETUPS_FILE}"',
    ),
    Key("trays", read.table("[trays.fixer]"), "a table for each tray", {}, "none"),
    Key("about", read.free_text('"for the north window"'), "for people", "", "nothing"),
)

TRAY = (
    Key(
        "place",
        read.shown(2, '"1"'),
        "where it stands, counted from the left; shown before its step",
        "",
        "not shown",
    ),
    Key("tongs", read.shown(2, '"A"'), "which tongs belong to it; shown beside the place", "", "not shown"),
    Key("size", read.sheet("8x10"), "the largest sheet that lies flat in it", None, "not known"),
    Key("bath", read.label('"first developer"'), "what stands in it", "", "its name"),
    Key(
        "formula",
        read.label('"peroxide-bleach"'),
        "the formula that it is mixed from, for its hazards: a shipped one, or a file beside this one",
        "",
        "what `bath` says",
    ),
    Key(
        "life",
        read.label(f'"{ONE_SHEET}"'),
        f'how long its filling lasts: "{ONE_SHEET}" or a number such as "12 sheets"',
        0,
        "not counted",
    ),
)

_COMMON = (
    Key("kind", read.choice(KINDS), "what sort of step"),
    Key("name", read.name(NAME_CHARS), "its full name"),
    Key("show", read.shown(6, '"DEV 1"'), "its name on the display", "", "the name, if that fits"),
    Key(
        "after",
        read.choice(AFTER),
        'what begins it: your foot, or the end of the step before it; never "auto" for a light',
        "pedal",
        '"pedal"',
    ),
    Key(
        "white_light",
        read.flag(),
        "white light is permitted from the beginning of this step on; not in a batch",
        False,
        "false",
    ),
    Key("note", read.free_text('"corner up"'), "for people; printed with the plan", "", "nothing"),
)
_TRAY_NEEDED = Key("tray", read.name(example='"fixer"'), "which tray of this file")
_TRAY_IF_ANY = Key("tray", read.name(example='"bleach"'), "which tray of this file", None, "none")

BATH = (
    *_COMMON,
    _TRAY_NEEDED,
    Key("time", read.duration(1000, BATH_CAP_MS, "1:30"), "from the start to the next tray, lift included"),
    Key(
        "lift",
        read.duration(0, 120_000, "10 s"),
        "the last part of the time: lift the sheet and let it drip",
        0,
        "none",
    ),
    Key(
        "agitation",
        read.table('{ first = "30 s", every = "30 s", for = "5 s" }'),
        "when to agitate; soft ticks call for it, none in the lift",
        {},
        "none",
    ),
    Key(
        "aside",
        read.flag(),
        "runs beside the steps after it and blocks nothing (a wash)",
        False,
        "false",
    ),
)
AGITATION = (
    Key("first", read.duration(0, BATH_CAP_MS, "30 s"), "from the start, without a break", 0, "none"),
    Key("every", read.duration(1000, BATH_CAP_MS, "30 s"), "then again at each of these", 0, "not again"),
    Key(
        "for",
        read.duration(1000, BATH_CAP_MS, "5 s"),
        "for so long each time; shorter than every",
        0,
        "needed with every",
    ),
)
BY_HAND = (
    *_COMMON,
    _TRAY_IF_ANY,
    Key("time", read.duration(1000, BATH_CAP_MS, "40 s"), "how long it takes in all"),
    Key(
        "cues",
        read.table('[{ at = "10 s", show = "DUMP" }]'),
        f"a sound at each of these times, in order; up to {MOST_CUES}",
        [],
        "none",
    ),
)
CUE = (
    Key("at", read.duration(0, BATH_CAP_MS, "10 s"), "from the start of the step, within its time"),
    Key("show", read.shown(6, '"DUMP"'), "what it calls for"),
)
UNTIL_PRESSED = (
    *_COMMON,
    _TRAY_IF_ANY,
    Key("least", read.duration(0, BATH_CAP_MS, "1:00"), "the pedal does not count before"),
    Key("most", read.duration(1000, BATH_CAP_MS, "4:00"), "it rings from here on; more than least"),
)
LIGHT = (
    *_COMMON,
    Key("setup", read.name(example='"second"'), "which light setup"),
    Key(
        "dose",
        dose(),
        "how much light: the setup's reference exposure, stops from it, seconds of its light, or lux-seconds;"
        " the time is worked out for the height and stop here",
        None,
        "time is written",
    ),
    Key(
        "already",
        dose(),
        "how much of that dose this part of the paper has had: only the rest is given (strips)",
        None,
        "nothing",
    ),
    Key(
        "time",
        read.duration(1, LIGHT_CAP_MS, "8 s"),
        "the light itself, given as it is written; instead of a dose",
        None,
        "dose is written",
    ),
    Key("height", read.height(), "another height than the setup's, for this step", None, "the setup's"),
    Key("stop", read.stop(), "another stop than the setup's, for this step", None, "the setup's"),
    Key(
        "settle",
        read.duration(0, 600_000, "10 s"),
        "a wet sheet settles; the pedal lights nothing before",
        0,
        "none",
    ),
)
PAUSE = _COMMON

STEPS: dict[StepKind, tuple[Key, ...]] = {
    "bath": BATH,
    "light": LIGHT,
    "by hand": BY_HAND,
    "until pressed": UNTIL_PRESSED,
    "pause": PAUSE,
}
