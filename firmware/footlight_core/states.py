"""Names of states, events, faults and menu entries. The rules about them are in `table`."""

IDLE = "idle"
PICK = "pick"
READY = "ready"
MENU = "menu"
BATH = "bath"
LIFT = "lift"
OVER = "over"
JUDGED = "judged"
PAUSED = "paused"
LIT = "lit"
HELD = "held"
FOCUS = "focus"
FOCUS_LIT = "focus lit"
DONE = "done"
BROKEN = "broken"
FAULT = "fault"
STATES = (
    IDLE,
    PICK,
    READY,
    MENU,
    BATH,
    LIFT,
    OVER,
    JUDGED,
    PAUSED,
    LIT,
    HELD,
    FOCUS,
    FOCUS_LIT,
    DONE,
    BROKEN,
    FAULT,
)

# The present step is only waited for.
BEFORE_STEP = (READY, MENU, HELD)

# Next states that depend on the program and on what went before; `entries.resolve` knows which they are.
OPENED = "opened"  # the chosen sequence: pick its sheet, be ready for a batch, or stay idle if refused
REARMED = "rearmed"  # the same sequence for the next sheet, or idle if it is refused
START_NEXT = "start next"  # the next step, begun at once unless it is a light
WAIT_NEXT = "wait for next"  # the next step, ready for the pedal
WAIT_HERE = "wait here"  # the present step, ready for the pedal
ORIGIN = "origin"  # where the fault came from
RESOLVED = (
    (OPENED, (PICK, READY, PAUSED, IDLE)),
    (REARMED, (READY, PAUSED, IDLE)),
    (START_NEXT, (BATH, JUDGED, PAUSED, READY, DONE)),
    (WAIT_NEXT, (READY, PAUSED, BATH, JUDGED, DONE)),
    (WAIT_HERE, (READY, PAUSED)),
    (ORIGIN, (IDLE, PICK, READY, MENU, BATH, LIFT, OVER, JUDGED, PAUSED, HELD, FOCUS, DONE, BROKEN)),
)

PRESS = "press"
SHORT = "short"
LONG = "long"
DUE = "due"
BEAT = "beat"
GATE = "gate"
TROUBLE = "trouble"
EVENTS = (PRESS, SHORT, LONG, DUE, BEAT, GATE, TROUBLE)

# What the menu offers, the harmless first: a leaning foot may open it and choose.
STAY = "STAY"
BACK = "BACK"
SKIP = "SKIP"
AGAIN = "AGAIN"
LEAVE = "LEAVE"
MENU_ENTRIES = (STAY, BACK, SKIP, AGAIN, LEAVE)

# What idle offers after the sequences.
FOCUS_ENTRY = "FOCUS"
LAST_ENTRY = "LAST"
BRIGHT_ENTRY = "BRIGHT"
FIXED_ENTRIES = (FOCUS_ENTRY, LAST_ENTRY, BRIGHT_ENTRY)

NEVER_MS = -1

# Fault codes: (code, what the display says, what it means).
NO_FAULT = 0
STUCK_PEDAL = 1
PEDAL_WIRE = 2
WET_PEDAL = 3
WELDED_RELAY = 4
NO_LIGHT = 5
NO_RECORD = 6
EXCEPTION = 7
NO_MEMORY = 8
LOST_GATE = 9
FULL_FLASH = 10
LEANING_FOOT = 11
LIGHT_NOT_ASKED = 12
LOST_NOTES = 13
FAULTS = (
    (STUCK_PEDAL, "STUCK", "the pedal has been down for more than ten seconds"),
    (PEDAL_WIRE, "WIRE", "the two contacts of the pedal contradict each other: a wire is off"),
    (WET_PEDAL, "WET", "the pedal chatters: water in it or in its plug"),
    (WELDED_RELAY, "UNPLUG", "the lamp burns although the gate is low: unplug it, the relay is welded"),
    (NO_LIGHT, "NOLAMP", "the gate was high and no light was seen: lamp, fuse or relay"),
    (NO_RECORD, "NOTES", "the journal cannot be written: the flash is worn"),
    (EXCEPTION, "ERROR", "the firmware met something it does not know"),
    (NO_MEMORY, "MEMORY", "not enough memory is free"),
    (LOST_GATE, "GATE", "the lamp gate did not report its end"),
    (FULL_FLASH, "FULL", "the journal is full: bring it home"),
    (LEANING_FOOT, "FOOT", "the pedal was held down for more than eight seconds"),
    (LIGHT_NOT_ASKED, "STRAY", "the lamp was seen burning with no exposure under way"),
    (LOST_NOTES, "LOST", "part of the journal in the flash cannot be read any more"),
)


def fault_word(code):
    """What the display says of a fault."""
    for known, word, _ in FAULTS:
        if known == code:
            return word
    return "E%d" % code
