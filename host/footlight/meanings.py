"""What the controller's codes mean, in words.

The controller holds names and codes and nothing that only a computer would read; a test holds both together.
"""

from collections.abc import Mapping
from typing import Any, NamedTuple

from footlight_core import dose, states

# Refusals of `wire.REFUSALS`.
REFUSALS = {
    "not_json": "the frame is not a JSON object",
    "not_request": "not a JSON-RPC 2.0 request with a printable text id of at most 32 characters",
    "no_method": "no such message",
    "bad_params": "a parameter is missing, unknown or out of range",
    "greet_first": "this session is not known: say hello first",
    "versions": "the two sides are of different make; only the journal can be read",
    "busy": "a run or the set-up light is under way, or a fault stands: see to it at the pedal",
    "no_upload": "no upload of that slot is under way",
    "bad_offset": "the bytes before that offset have not arrived",
    "bad_hash": "what arrived is not what was announced",
    "bad_program": "the controller will not run this program",
    "storage": "the controller's memory failed",
    "no_slot": "that slot is empty",
    "past_end": "the journal does not reach that far",
    "too_long": "the answer does not fit in a frame",
}

# Keys of the result that answers each message of `wire.MESSAGES`. None: the status is the app's to say.
REPLIES: dict[str, tuple[str, ...] | None] = {
    "hello": ("protocol", "least", "most", "schema", "build", "id", "epoch", "agreed"),
    "limits": ("bytes", "steps", "slots", "chunk", "light_cap_ms"),
    "status": None,
    "slots": ("slots",),
    "begin": ("offset",),
    "put": ("offset",),
    "commit": ("title",),
    "clear": (),
    "records": ("epoch", "first", "last", "line"),
    "kept": (),
    "numbers": ("next",),
    "sense": ("reading", "lit", "t", "tail_ms", "fitted", "lamps"),
    "fit": (),
    "learn": (),
    "maintain": (),
}

_KEPT = (
    "nothing is lost: a light that was on is off, what it gave is recorded, and its rest is offered after a"
    " long press; a bath's clock goes on"
)


class Fault(NamedTuple):
    """A fault in words. sheet: what to do with the sheet. check: what to mend, and to look at first."""

    meaning: str
    sheet: str
    check: str


# Faults of `states.FAULTS`, by the word that the display shows: the one place that says what they mean;
# messages, docs/controller.md and docs/faults.md take it from here.
#
# Common practice, no source: that too little second exposure is hardly seen and too much ruins the sheet.
FAULTS: dict[str, Fault] = {
    "STUCK": Fault(
        "the pedal has been down for more than ten seconds",
        _KEPT,
        "free the pedal first: something stands on it, or it sticks",
    ),
    "WIRE": Fault(
        "the two contacts of the pedal contradict each other: a wire is off",
        _KEPT,
        "check plug and cable of the pedal first",
    ),
    "WET": Fault(
        "the pedal chatters: water in it or in its plug",
        _KEPT,
        "dry the pedal and its plug first",
    ),
    "UNPLUG": Fault(
        "the lamp burns although the gate is low: unplug it, the relay is welded",
        "a sheet under the lamp has had more light than is recorded: count it as lost",
        "dry hands on the plug; change the relay before it goes in again",
    ),
    "NOLAMP": Fault(
        "no light under a high gate: lamp, fuse or relay",
        (
            "no light is counted if the lamp never burnt, and the light until then if it went out: mend,"
            " then a long press, and what is missing is offered"
        ),
        "check lamp, fuse and relay, and that the sensor sees the lamp",
    ),
    "NOTES": Fault(
        "the journal cannot be written: the flash is worn",
        (
            "leave it switched on, for what could not be written waits in its memory: a long press tries"
            " again. If NOTES comes back at once, finish the sheet by hand and write its times down"
            " yourself"
        ),
        "collect its journal once it goes on; if it comes again, change the board",
    ),
    "ERROR": Fault(
        "the firmware met something it does not know",
        _KEPT,
        "tell the makers; if it comes again, switch off and on before the next sheet",
    ),
    "MEMORY": Fault(
        "not enough memory is free",
        _KEPT,
        "switch off and on before the next sheet",
    ),
    "GATE": Fault(
        "the lamp gate did not report its end",
        "the light is recorded as given whole, the most that it can have been: give no more of it",
        "switch off and on, and try the set-up light, with no paper out, before the next sheet",
    ),
    "FULL": Fault(
        "the journal is full: bring it home",
        "no run has begun: the sheet is as it was",
        "collect its journal, then a long press: what is safe in the notebook makes room",
    ),
    "FOOT": Fault(
        "the pedal was held down for more than eight seconds",
        _KEPT,
        "take the foot off the pedal: a long press ends within eight seconds",
    ),
    "STRAY": Fault(
        "the lamp was seen burning with no exposure under way",
        ("a sheet that lay under the lamp has had light that is not in the record: doubt it, keep it apart"),
        "who switched the lamp on? If nobody did, pull its plug with dry hands: the relay sticks",
    ),
    "LEG": Fault(
        "a leg of the lamp's coil does not do what it is told: no light until it is mended",
        (
            "no light came of it: the sheet has had what is recorded, and its rest is offered once it is"
            " mended"
        ),
        "the wires of the lamp's relay, then the test of both legs, before the next sheet",
    ),
    "5VOLT": Fault(
        "the 5 V supply is not there: the chip lives on the computer's cable alone",
        _KEPT,
        "the controller's own supply, its plug, and what has made its fuse trip",
    ),
    "WHITE": Fault(
        "the white-light contact is closed although white light is not allowed",
        "a sheet that lay open may have been under white light: doubt it, keep it apart",
        "cover the sheet, unplug the white lamp; the wires of its relay, and the transistor that pulls it",
    ),
    "LOST": Fault(
        "part of the journal in the flash cannot be read any more",
        (
            "the sheet may have had more light than is told here: go by what you wrote on it; in doubt,"
            " give no more"
        ),
        "collect what is left, before anything else",
    ),
    "MENDED": Fault(
        "the sheet numbers in the flash had rotted and were mended from their copy",
        "nothing is lost: sheet numbers and the journal go on",
        "collect its journal; if it comes again, change the board",
    ),
    "SENSOR": Fault(
        "what was learnt of the light sensor has rotted in the flash",
        "nothing is lost: lights go by seconds, as without a sensor",
        "learn each lamp again with the computer; if it comes again, change the board",
    ),
}

# Why a light went by seconds although a sensor is fitted, by the word of the record (`dose` in the core).
BY_SECONDS = {
    dose.UNLEARNT: "the level of this lamp was never learnt",
    dose.BRIGHT: "the sensor saw light before the lamp was lit",
    dose.LEVEL: "the sensor read a level that is not this lamp's",
    dose.SATURATED: "the sensor was saturated",
    dose.STUCK: "the sensor's reading did not move at all",
    dose.LOST: "the sensor was lost in mid-light",
}

# Sounds of `effects`, in the order of their numbers.
SOUNDS = (
    "start",
    "lift",
    "time",
    "over",
    "second",
    "stir",
    "still",
    "cue",
    "counts",
    "no",
    "off",
    "ready",
    "done",
    "turn",
    "wash",
    "fault",
)


def busy(status: Mapping[str, Any]) -> str:
    """Why a controller in that state does not do now what is asked of it, and what to do about it."""
    if status["state"] == states.FAULT:
        code = int(status["fault"])
        word, check = states.fault_word(code), fault(code).check
        return f"the fault {word} stands ({fault_text(code)}): {check}; then a long press acknowledges it"
    if status["state"] in (states.FOCUS, states.FOCUS_LIT):
        return "the set-up light is armed: leave it at the pedal"
    return "a run is under way: finish it or leave it at the pedal"


def fault_text(code: int) -> str:
    """What a fault means."""
    return fault(code).meaning


def fault(code: int) -> Fault:
    """A fault in words; also one that this version does not know."""
    unknown = Fault(f"code {code}, unknown to this version", "", "update footlight on this computer")
    return FAULTS.get(states.fault_word(code), unknown)
