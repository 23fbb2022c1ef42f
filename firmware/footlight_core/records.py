"""The records of the journal: what each kind holds, declared once for both ends.

A record is one sealed line (see `wire`): a JSON object with `n`, its number without gaps, `t`, ms since
the controller was switched on, `k`, its kind, and the fields of its kind.
"""

import json

from . import effects as fx
from . import wire

MAX_LINE = 240  # so that a record fits in a frame, quotes and all

# How a light ended, a step was left, a run ended.
WHOLE = "whole"
HELD = "held"
SHORT = "short"  # what was left was less than the relay can do
ABANDONED = "abandoned"
TIME = "time"
PEDAL = "pedal"
EARLY = "early"
SKIPPED = "skipped"
ASIDE = "aside"  # runs beside the steps that follow
LEFT = "left"
BROKEN = "broken"  # by a fault, a reset or a power cut

BOOT = 0
DATE = 1
ARM = 2
BEGIN = 3
STEP = 4
INTENT = 5
GAVE = 6
CUT = 7
FOCUS = 8
FAULT = 9
CLEARED = 10
END = 11
MOVE = 12
DOSE = 13

# Kinds in the order of the numbers above: (name, fields).
KINDS = (
    ("boot", ("reason", "value", "build", "fresh")),
    ("date", ("unix_s",)),
    ("arm", ("run", "slot", "sha", "title", "sheet", "sheets")),
    ("begin", ("run", "step", "sheet")),
    ("step", ("run", "step", "sheet", "start", "real_ms", "how")),
    ("intent", ("run", "step", "sheet", "light_ms", "gate_ms", "sha")),
    ("gave", ("run", "step", "sheet", "gate_ms", "light_ms", "left_ms", "how")),
    ("cut", ("run", "step", "sheet", "least_ms", "most_ms")),
    ("focus", ("gate_ms",)),
    ("fault", ("run", "step", "code")),
    ("cleared", ("run", "step", "code")),
    ("end", ("run", "sheet", "how")),
    # By a choice at the pedal the run stands before that step.
    ("move", ("run", "step", "sheet")),
    # Behind a light's `gave`, where a sensor is fitted. Levels in thousandths of the learnt one.
    ("dose", ("run", "step", "sheet", "dose_ms", "least", "mean", "most", "how")),
)

# Which field of a record comes from which place of a note (see `effects`).
_FROM_NOTE = {
    "step": fx.STEP,
    "sheet": fx.SHEET,
    "start": fx.A,
    "real_ms": fx.B,
    "gate_ms": fx.A,
    "light_ms": fx.B,
    "left_ms": fx.C,
    "least_ms": fx.A,
    "most_ms": fx.B,
    "code": fx.A,
    "dose_ms": fx.A,
    "least": fx.B,
    "mean": fx.C,
    "most": fx.D,
    "how": fx.HOW,
}
SHA_CHARS = 16  # of the program's SHA-256, enough to tell programs apart in a record


def fields_of(name):
    """The fields of a kind of record, or None."""
    for known, fields in KINDS:
        if known == name:
            return fields
    return None


def from_note(kind, note, run):
    """A noted record -> its fields (dict without number and time)."""
    name, fields = KINDS[kind]
    record = {"k": name}
    for field in fields:
        record[field] = note[_FROM_NOTE[field]] if field in _FROM_NOTE else _from_run(field, run)
    return record


def _from_run(field, run):
    if field == "run":
        return run.number
    if field == "slot":
        return run.slot
    if field == "sha":
        return run.sha[:SHA_CHARS]
    return run.program.get(field, "")


def seal(record):
    """A record (dict) -> its line of bytes. Raises ValueError when it is too long."""
    line = wire.seal(wire.dumps(record))
    if len(line) > MAX_LINE:
        raise ValueError("record of %d bytes; at most %d" % (len(line), MAX_LINE))
    return line


def unseal(line):
    """A line of bytes -> the record (dict), or None when it is torn, foreign or not whole."""
    text = wire.unseal(line)
    if text is None:
        return None
    try:
        record = json.loads(text)  # it begins with a brace, so it is an object or no JSON
    except (ValueError, RuntimeError):
        return None
    fields = fields_of(record.get("k"))
    if fields is None or not _whole(record, fields):
        return None
    return record


def _whole(record, fields):
    for key in ("n", "t"):
        if type(record.get(key)) is not int:
            return False
    for field in fields:
        if field not in record:
            return False
    return len(record) == len(fields) + 3
