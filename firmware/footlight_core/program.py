"""The program: what a sequence file is compiled to, and all that the controller will accept.

A program is the ASCII bytes of one JSON object. Every key of its head, of a lamp and of each step
kind is declared once below with its limits; the compiler, the commit and the run all check the same
table, so that a light that one of them would refuse never reaches the lamp.
"""

import json

from . import const
from . import states as st
from .errors import ProgramError

VERSION = 1
MAX_BYTES = 6144
MAX_STEPS = 40
MAX_SHEETS = 99
MAX_LAMPS = 3
SHOWN_CHARS = const(6)  # what the display holds at once, if few of them are wide
DISPLAY_COLUMNS = 32
NAME_CHARS = 24

# The longest that any lamp may burn without a break, whatever a file says [ms].
# The gate's own counter ends at 167 s; this stays well inside it.
LIGHT_CAP_MS = const(120_000)
BATH_CAP_MS = const(4 * 3_600_000)

# Names of the kinds of steps. What a kind is stands in its row of KINDS.
BATH = "bath"
HAND = "hand"
JUDGE = "judge"
LIGHT = "light"
PAUSE = "pause"

# Characters that the controller's font can show.
SHOWN_SET = " !+-./0123456789:<=>?ABCDEFGHIJKLMNOPQRSTUVWXYZ"

# A rule is (key, type, least, most, default). For text, least and most count characters.
# A default of REQUIRED means that the key must be there.
REQUIRED = "required"

HEAD_RULES = (
    ("v", int, VERSION, VERSION, REQUIRED),
    ("title", str, 1, SHOWN_CHARS, REQUIRED),
    ("name", str, 1, NAME_CHARS, REQUIRED),
    ("sheets", int, 1, MAX_SHEETS, 1),
    ("lamps", list, 0, MAX_LAMPS, ()),
    ("steps", list, 1, MAX_STEPS, REQUIRED),
)

LAMP_RULES = (
    ("name", str, 1, SHOWN_CHARS, REQUIRED),
    ("cap_ms", int, 1, LIGHT_CAP_MS, REQUIRED),
    # The most light in any ten minutes.
    ("window_ms", int, 1, 600_000, REQUIRED),
)

_COMMON = (
    ("kind", str, 1, NAME_CHARS, REQUIRED),
    ("name", str, 1, NAME_CHARS, REQUIRED),
    ("show", str, 1, SHOWN_CHARS, REQUIRED),
    # Begins by itself when the step before it ends; never for a light.
    ("auto", int, 0, 1, 0),
    # White light is permitted from this step on.
    ("white", int, 0, 1, 0),
)

_TRAY = (
    ("place", str, 0, 2, ""),
    ("tongs", str, 0, 2, ""),
)
# Of a kind that may go without a tray: it does.
_DRY = (("dry", int, 0, 1, 0),)


class Kind:
    """A kind of step. Whoever asks what a step of a kind is and does asks its row of KINDS.

    rules: of its keys. state: what the controller is in once such a step has begun. in_tray: does the sheet
    lie in a tray meanwhile, unless the step itself is dry? time_key: the key of its time, after which the
    controller rings or the lamp goes off; "" where it has none. check: of its values together, called with
    (step, number, program), or None.
    """

    def __init__(self, name, rules, state, in_tray, time_key="", check=None):
        self.name = name
        self.rules = rules
        self.state = state
        self.in_tray = in_tray
        self.time_key = time_key
        self.check = check

    def is_judged(self):
        """Does the pedal end it, when the eye says so?"""
        return self.state == st.JUDGED

    def time_ms(self, step):
        """The planned time of a step of this kind, at most [ms]; 0 where it has none."""
        return step[self.time_key] if self.time_key else 0


def _check_bath(step, number, program):
    if step["lift_ms"] >= step["time_ms"]:
        raise ProgramError(number, "lift_ms", step["lift_ms"], "less than time_ms %d" % step["time_ms"])
    every_ms = step["stir_every_ms"]
    if every_ms and not 1000 <= step["stir_for_ms"] < every_ms:
        raise ProgramError(number, "stir_for_ms", step["stir_for_ms"], "1000 to below %d" % every_ms)


def _check_cues(step, number, program):
    last_ms = -1
    for cue in step["cues"]:
        good = isinstance(cue, (list, tuple)) and len(cue) == 2
        if not good or type(cue[0]) is not int or type(cue[1]) is not str:
            raise ProgramError(number, "cues", _short(cue), "[ms, text] pairs")
        if not last_ms < cue[0] <= step["time_ms"]:
            raise ProgramError(number, "cues", _short(cue), "rising times within the step")
        if not 1 <= len(cue[1]) <= SHOWN_CHARS:
            raise ProgramError(number, "cues", _short(cue), "texts of 1 to %d characters" % SHOWN_CHARS)
        _check_text("show", cue[1], number)
        last_ms = cue[0]


def _check_judge(step, number, program):
    if step["least_ms"] >= step["most_ms"]:
        raise ProgramError(number, "least_ms", step["least_ms"], "less than most_ms %d" % step["most_ms"])


def _check_light(step, number, program):
    if step["auto"]:
        raise ProgramError(number, "auto", 1, "0: a light never starts by itself")
    if step["lamp"] >= len(program["lamps"]):
        raise ProgramError(number, "lamp", step["lamp"], "one of the %d lamps" % len(program["lamps"]))
    lamp = program["lamps"][step["lamp"]]
    most = min(lamp["cap_ms"], lamp["window_ms"], LIGHT_CAP_MS)
    if gate_ms(step) > most:
        raise ProgramError(number, "time_ms", gate_ms(step), "at most %d with its dead time" % most)


KINDS = (
    Kind(
        BATH,
        rules=_COMMON
        + _TRAY
        + (
            ("time_ms", int, 1000, BATH_CAP_MS, REQUIRED),
            ("lift_ms", int, 0, 120_000, 0),
            ("stir_first_ms", int, 0, BATH_CAP_MS, 0),
            ("stir_every_ms", int, 0, BATH_CAP_MS, 0),
            ("stir_for_ms", int, 0, BATH_CAP_MS, 0),
            # Runs beside the steps that follow and blocks none of them (a wash).
            ("aside", int, 0, 1, 0),
        ),
        state=st.BATH,
        in_tray=True,
        time_key="time_ms",
        check=_check_bath,
    ),
    Kind(
        HAND,
        rules=_COMMON
        + _TRAY
        + _DRY
        + (
            ("time_ms", int, 1000, BATH_CAP_MS, REQUIRED),
            # [at_ms, text] pairs, in order of time.
            ("cues", list, 0, 12, ()),
        ),
        state=st.BATH,
        in_tray=True,
        time_key="time_ms",
        check=_check_cues,
    ),
    Kind(
        JUDGE,
        rules=_COMMON
        + _TRAY
        + _DRY
        + (
            ("least_ms", int, 0, BATH_CAP_MS, REQUIRED),
            ("most_ms", int, 1000, BATH_CAP_MS, REQUIRED),
        ),
        state=st.JUDGED,
        in_tray=True,
        time_key="most_ms",
        check=_check_judge,
    ),
    Kind(
        LIGHT,
        rules=_COMMON
        + (
            ("time_ms", int, 1, LIGHT_CAP_MS, REQUIRED),
            ("dead_ms", int, 0, 2000, 0),
            # The shortest remainder that the relay can do.
            ("least_ms", int, 1, 5000, 20),
            ("lamp", int, 0, MAX_LAMPS - 1, 0),
            ("lens", str, 0, SHOWN_CHARS, ""),
            ("stop", str, 0, SHOWN_CHARS, ""),
            ("height_mm", int, 0, 9999, 0),
            ("settle_ms", int, 0, 600_000, 0),
        ),
        state=st.LIT,
        in_tray=False,
        time_key="time_ms",
        check=_check_light,
    ),
    Kind(PAUSE, rules=_COMMON, state=st.PAUSED, in_tray=False),
)

_KIND_OF = {kind.name: kind for kind in KINDS}
# Where there is no step.
NO_KIND = Kind("", rules=(), state="", in_tray=False)
# All the rules, for the schema that both sides agree upon.
STEP_RULES = tuple([(kind.name, kind.rules) for kind in KINDS])

# Columns of a character: four and a gap, but for these.
WIDE = "MVW"
NARROW = (("!", 1), (".", 1), (":", 1), (" ", 2))
NARROW += tuple([(char, 3) for char in "I1-+<>T"])

_SHOWN_KEYS = ("title", "show", "lens", "stop", "place", "tongs")


def kind_of(step):
    """The row of a step's kind; NO_KIND for what is no step of any known kind."""
    return _KIND_OF.get(step.get("kind"), NO_KIND)


def in_tray(step):
    """Does the sheet lie in a tray during a step?"""
    return kind_of(step).in_tray and not step.get("dry", 0)


def parse(data):
    """Bytes of a program -> checked program (dict with every default filled in).

    Raises ProgramError for anything that the controller would not run.
    """
    if len(data) > MAX_BYTES:
        raise ProgramError(0, "length", "%d bytes" % len(data), "at most %d bytes" % MAX_BYTES)
    try:
        raw = json.loads(bytes(data).decode())
    except (ValueError, UnicodeError, RuntimeError):
        # RuntimeError: nested deeper than the chip's stack allows.
        raise ProgramError(0, "text", "not JSON", "one JSON object")
    return check(raw)


def check(raw):
    """A decoded JSON object -> checked program. Raises ProgramError."""
    program = _obey(HEAD_RULES, raw, 0)
    program["lamps"] = [_obey(LAMP_RULES, lamp, 0) for lamp in program["lamps"]]
    steps = []
    for number, step in enumerate(program["steps"]):
        steps.append(_check_step(step, number + 1, program))
    program["steps"] = steps
    _check_whole(program)
    return program


def shown_columns(text):
    """How many columns of the display a text takes."""
    return sum([_columns(char) + 1 for char in text]) - 1


def _columns(char):
    for narrow, columns in NARROW:
        if char == narrow:
            return columns
    return 5 if char in WIDE else 4


def white_from(program):
    """Index of the first step that permits white light; the number of steps if none does."""
    # By index, for it is asked as a light ends, where nothing may be allocated.
    steps = program["steps"]
    for index in range(len(steps)):
        if steps[index]["white"]:
            return index
    return len(steps)


def gate_ms(step):
    """The longest single gate time of a light step: its light and one dead time [ms]."""
    return step["time_ms"] + step["dead_ms"]


def _obey(rules, raw, number):
    if not isinstance(raw, dict):
        raise ProgramError(number, "value", _short(raw), "an object")
    known = [rule[0] for rule in rules]
    for key in raw:
        if key not in known:
            raise ProgramError(number, _short(key)[1:-1], "not known", ", ".join(known))
    return {rule[0]: _value(rule, raw, number) for rule in rules}


def _value(rule, raw, number):
    key, kind, least, most, default = rule
    value = raw.get(key, default)
    if default == REQUIRED and key not in raw:
        raise ProgramError(number, key, "missing", _allowed(rule))
    if value is default:
        return value
    # bool is an int, and a text 'of 5' is not: only the very type will do.
    if type(value) is not kind:
        raise ProgramError(number, key, _short(value), _allowed(rule))
    size = value if kind is int else len(value)
    if not least <= size <= most:
        raise ProgramError(number, key, _short(value), _allowed(rule))
    if kind is str:
        _check_text(key, value, number)
    return value


def _check_text(key, value, number):
    if key in _SHOWN_KEYS:
        allowed = SHOWN_SET
        for char in value:
            if char not in allowed:
                raise ProgramError(number, key, _short(value), "characters " + allowed)
        if shown_columns(value) > DISPLAY_COLUMNS:
            raise ProgramError(number, key, _short(value), "at most three of M, V and W among six characters")
    for char in value:
        if not " " <= char <= "~":
            raise ProgramError(number, key, _short(value), "printable ASCII")


def _check_step(raw, number, program):
    name = raw.get("kind") if isinstance(raw, dict) else None
    kind = _KIND_OF.get(name) if isinstance(name, str) else None
    if kind is None:
        raise ProgramError(number, "kind", _short(name), ", ".join([kind.name for kind in KINDS]))
    step = _obey(kind.rules, raw, number)
    if kind.check:
        kind.check(step, number, program)
    return step


def _check_whole(program):
    steps = program["steps"]
    if steps[0]["auto"]:
        raise ProgramError(1, "auto", 1, "0: the first step waits for the pedal")
    if program["sheets"] == 1:
        return
    for index, step in enumerate(steps):
        # Sheets of a batch are never all fixed before the last one ends.
        if step["white"]:
            raise ProgramError(index + 1, "white", 1, "0 in a batch of sheets")


def _allowed(rule):
    _, kind, least, most, _ = rule
    if kind is int:
        return "%d to %d" % (least, most)
    if kind is str:
        return "text of %d to %d characters" % (least, most)
    return "list of %d to %d" % (least, most)


def _short(value):
    # A hostile file may put anything here; what is shown stays short and printable.
    text = repr(value)[:40]
    return "".join([char if " " <= char <= "~" else "?" for char in text])
