"""What the controller's codes mean, in words.

The controller holds names and codes and nothing that only a computer would read; a test holds both together.
"""

from footlight_core import states

# Refusals of `wire.REFUSALS`.
REFUSALS = {
    "not_json": "the frame is not a JSON object",
    "not_request": "not a JSON-RPC 2.0 request with a printable text id of at most 32 characters",
    "no_method": "no such message",
    "bad_params": "a parameter is missing, unknown or out of range",
    "greet_first": "this session is not known: say hello first",
    "versions": "the two sides are of different make; only the journal can be read",
    "busy": "a run or the set-up light is under way: finish or leave it at the pedal",
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
    "maintain": (),
}

# Faults of `states.FAULTS`, by the word that the display shows.
FAULTS = {
    "STUCK": "the pedal has been down for more than ten seconds",
    "WIRE": "the two contacts of the pedal contradict each other: a wire is off",
    "WET": "the pedal chatters: water in it or in its plug",
    "UNPLUG": "the lamp burns although the gate is low: unplug it, the relay is welded",
    "NOLAMP": "no light under a high gate: lamp, fuse or relay",
    "NOTES": "the journal cannot be written: the flash is worn",
    "ERROR": "the firmware met something it does not know",
    "MEMORY": "not enough memory is free",
    "GATE": "the lamp gate did not report its end",
    "FULL": "the journal is full: bring it home",
    "FOOT": "the pedal was held down for more than eight seconds",
    "STRAY": "the lamp was seen burning with no exposure under way",
    "LEG": "a leg of the lamp's coil does not do what it is told: no light until it is mended",
    "5VOLT": "the 5 V supply is not there: the chip lives on the computer's cable alone",
    "WHITE": "the white-light contact is closed although white light is not allowed",
    "LOST": "part of the journal in the flash cannot be read any more",
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


def fault_text(code: int) -> str:
    """What a fault means."""
    return FAULTS.get(states.fault_word(code), f"code {code}, unknown to this version")
