"""What the sequencer wants done. A fixed buffer: nothing is allocated while the lamp is on."""

from . import const

LAMP_ON = 1  # value: gate time [ms]
LAMP_OFF = 2
WHITE = 3  # value: 1 = white light permitted
SOUND = 4  # value: one of the sounds below
RECORD = const(5)  # value: index of a kind in records.KINDS; its numbers stand in `notes`
KEEP = 6  # the ledger of sheet and run numbers has changed

# One sound for each meaning; `controller.sound` gives them their notes.
START = 0
LIFT = 1
TIME = 2
OVER = 3
SECOND = 4
STIR = 5
STILL = 6
CUE = 7
COUNTS = 8
NO = 9
OFF = 10
READY = 11
DONE = 12
TURN = 13
WASH = 14
FAULT = 15

_MOST = const(24)

# Places in a note.
STEP = const(0)
SHEET = const(1)
A = const(2)
B = const(3)
C = const(4)
HOW = const(5)
D = const(6)


class Effects:
    """A queue of (kind, value), filled by the sequencer and emptied by the loop that applies them."""

    def __init__(self):
        self.kinds = [0] * _MOST
        self.values = [0] * _MOST
        # What a record will say is noted when it is pushed: by the time that it is written,
        # the run may already stand at the next step.
        self.notes = [[0, 0, 0, 0, 0, "", 0] for _ in range(_MOST)]
        self.count = 0

    def push(self, kind, value=0):
        """Append one effect. No event makes nearly as many as fit; more is a fault of the program."""
        if self.count == _MOST:
            raise IndexError("effects")
        self.kinds[self.count] = kind
        self.values[self.count] = value
        self.count += 1

    def record(self, kind, step, sheet, a=0, b=0, c=0, how="", d=0):
        """Append a record with its numbers."""
        self.note(kind, step, sheet, a, b, c, how, d)
        self.count += 1

    def note(self, kind, step, sheet, a=0, b=0, c=0, how="", d=0):
        """Put a record where the next effect goes; it counts once `count` is raised."""
        if self.count == _MOST:
            raise IndexError("effects")
        note = self.notes[self.count]
        note[STEP] = step
        note[SHEET] = sheet
        note[A] = a
        note[B] = b
        note[C] = c
        note[HOW] = how
        note[D] = d
        self.kinds[self.count] = RECORD
        self.values[self.count] = kind

    def clear(self):
        """All applied."""
        self.count = 0
