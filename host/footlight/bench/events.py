"""What the box tells: one typed event for each thing that happens to its hardware."""

from dataclasses import dataclass

# What the bench itself did.
PEDAL = "pedal"  # make and rest contact: 1 = closed
# Levels of outputs, by the name of their pin.
GATE = "gate"
PUMP = "pump"
LEG = "leg"  # one leg of the coil tried alone: it lights nothing
WHITE = "white"
TONE = "tone"  # hertz, 0 = silence
FRAME = "frame"  # all that the display latched, in hex
KEYBOARD = "keyboard"  # may Ctrl-C stop the firmware?
WATCHDOG = "watchdog"  # is it running?
# Operations of the flash: a block, or a block, an offset and a length.
ERASE = "erase"
PROGRAM = "program"
FORMAT = "format"
RECORD = "record"  # a record is durable: its fields, as JSON
DOSE = "dose"  # what the fitted lamp has given to sensor and paper [us of the new, warm lamp]
HEAP = "heap"  # free memory, when asked for [bytes]
PAUSE = "pause"  # the processor stands still for so long [us], as in a long garbage collection
FELL = "fell"  # an exception that nobody caught: at the prompt, until the watchdog bites
# Ends of the firmware.
RESET = "reset"
PROMPT = "prompt"
DIED = "died"
POWER = "power"
OUT = "out"  # bytes of the link, in hex, where the link has no pipe of its own
ENDS = (RESET, PROMPT, DIED, POWER)


@dataclass(frozen=True, slots=True)
class Event:
    """One event at a time of the bench [us since it was made]."""

    t_us: int
    kind: str
    text: str = ""

    @property
    def t_ms(self) -> int:
        """Whole milliseconds of its time [ms]."""
        return self.t_us // 1000

    @property
    def value(self) -> int:
        """Its first number: a level, a frequency [Hz], a block."""
        return int(self.text.split(" ", 1)[0])


def parse(line: str) -> Event:
    """A line of the box -> the event."""
    t_us, kind, text = line.rstrip("\n").split(" ", 2)
    return Event(int(t_us), kind, text)
