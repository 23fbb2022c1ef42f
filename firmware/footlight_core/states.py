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
DOUBT = "doubt"  # how much light the step that was cut off has had is not known: the pedal chooses
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
    DOUBT,
    FAULT,
)

# Next states that depend on the program and on what went before; `entries.resolve` knows which they are.
OPENED = "opened"  # the chosen sequence: pick its sheet, be ready for a batch, or stay idle if refused
REARMED = "rearmed"  # the same sequence for the next sheet, or idle if it is refused
START_NEXT = "start next"  # the next step, begun at once unless it is a light
WAIT_NEXT = "wait for next"  # the next step, ready for the pedal
WAIT_HERE = "wait here"  # the present step, ready for the pedal
ORIGIN = "origin"  # where the fault came from

PRESS = "press"
SHORT = "short"
LONG = "long"
DUE = "due"
BEAT = "beat"
GATE = "gate"
TROUBLE = "trouble"

# What the menu offers, the harmless first: a leaning foot may open it and choose.
STAY = "STAY"
BACK = "BACK"
SKIP = "SKIP"
AGAIN = "AGAIN"
LEAVE = "LEAVE"
MENU_ENTRIES = (STAY, BACK, SKIP, AGAIN, LEAVE)

# What may still be given of a light that was cut off: what is surely missing, nothing, up to the whole. The
# harmless come first here too.
MIN = "MIN"
NONE = "NONE"
MAX = "MAX"

# What idle offers after the sequences.
FOCUS_ENTRY = "FOCUS"
LAST_ENTRY = "LAST"
BRIGHT_ENTRY = "BRIGHT"
FIXED_ENTRIES = (FOCUS_ENTRY, LAST_ENTRY, BRIGHT_ENTRY)

NEVER_MS = -1

# Fault codes, and what the display says. What they mean is said on the computer.
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
COIL_LEG = 14
NO_SUPPLY = 15
WHITE_OPEN = 16
MENDED_NOTES = 17
LOST_SENSOR = 18
FAULTS = (
    (STUCK_PEDAL, "STUCK"),
    (PEDAL_WIRE, "WIRE"),
    (WET_PEDAL, "WET"),
    (WELDED_RELAY, "UNPLUG"),
    (NO_LIGHT, "NOLAMP"),
    (NO_RECORD, "NOTES"),
    (EXCEPTION, "ERROR"),
    (NO_MEMORY, "MEMORY"),
    (LOST_GATE, "GATE"),
    (FULL_FLASH, "FULL"),
    (LEANING_FOOT, "FOOT"),
    (LIGHT_NOT_ASKED, "STRAY"),
    (LOST_NOTES, "LOST"),
    (COIL_LEG, "LEG"),
    (NO_SUPPLY, "5VOLT"),
    (WHITE_OPEN, "WHITE"),
    (MENDED_NOTES, "MENDED"),
    (LOST_SENSOR, "SENSOR"),
)


def fault_word(code):
    """What the display says of a fault."""
    for known, word in FAULTS:
        if known == code:
            return word
    return "E%d" % code
