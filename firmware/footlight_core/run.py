"""Where a run stands: which program, sheet and step, and how much light has been given.

Only data and its arithmetic; what may happen when is in `sequencer`.
"""

from . import const
from . import dose as doses
from . import program as programs
from .tally import Tally

FOCUS_CAP_MS = programs.LIGHT_CAP_MS
FOCUS_WINDOW_MS = 300_000
_MOST_WAITING = const(64)
# A counted light that misses so little, or this part of it (0.014 stop), is whole.
_WHOLE_MS = const(5)
_WHOLE_PART = const(100)
BRIGHTNESS_LEVELS = 4  # 0 = display dark; the sounds say everything that it would

# Stand-ins where there is nothing, so that no look at a step can fail.
NO_PROGRAM = {}
NO_STEP = {"kind": "", "auto": 0}


class Ledger:
    """Numbers that outlive a run: the next sheet, the next run, and the flashed sheets that wait for one."""

    def __init__(self, next_sheet=1, next_run=1, waiting=(), last_sheet=0, brightness=1):
        self.next_sheet = next_sheet
        self.next_run = next_run
        self.waiting = list(waiting)
        self.last_sheet = last_sheet
        self.brightness = brightness

    def candidates(self):
        """Sheets that a new run may be for: waiting ones, a new one, then the last one again."""
        numbers = list(self.waiting)
        numbers.append(self.next_sheet)
        if self.last_sheet and self.last_sheet not in numbers:
            numbers.append(self.last_sheet)
        return numbers

    def take(self, sheet):
        """A sheet comes under the lamp or into a tray: its number is used from now on."""
        if sheet in self.waiting:
            self.waiting.remove(sheet)
        self.last_sheet = sheet
        self.next_sheet = max(self.next_sheet, sheet + 1)

    def count_on(self, sheet):
        """Numbers up to this one are used, whoever knows it. True if that is news."""
        is_news = sheet >= self.next_sheet
        self.next_sheet = max(self.next_sheet, sheet + 1)
        return is_news

    def wait(self, sheet):
        """A sheet was flashed and waits for its run."""
        if sheet not in self.waiting and len(self.waiting) < _MOST_WAITING:
            self.waiting.append(sheet)


class Run:
    """One carrying-out of a program, for one sheet or a batch of them."""

    def __init__(self):
        self.program = NO_PROGRAM
        self.slot = 0
        self.sha = ""
        self.number = 0
        self.sheet = 0
        self.sheet_index = 0
        self.index = 0
        self.tally = Tally()  # of the present sheet
        # Light that it has had in the present step since the run came to it: known after a cut, else none.
        self.least_ms = self.most_ms = 0
        self.start_ms = 0  # of the present step
        self.left_ms = 0  # of light, in the present light step
        self.lit_left_ms = 0  # the same when the lamp went on: so an exposure may be booked twice
        self.light_ms = 0  # of light, given by the last exposure
        self.gate_ms = 0  # of the last exposure: planned when lit, then real
        self.cap_ms = 0  # how long the gate may be high: longer than planned where light is counted
        self.is_capped = False  # the last exposure lasted so long, and had not given its light
        self.spent_ms = 0  # light by seconds that the present step has had since the run came to it
        self.dose = doses.Dose()  # measures the exposure, where a sensor is fitted
        self.intent_open = False
        self.answered = ""  # how the last intent was

    def load(self, program, slot, sha, number, sheet):
        """Begin at the first step of the first sheet."""
        self.program = program or NO_PROGRAM
        self.slot, self.sha = slot, sha
        self.number, self.sheet = number, sheet
        self.sheet_index = 0
        self.tally.clear()
        self.go_to(0)
        self.intent_open = False

    def go_to(self, index):
        """The run stands at another step."""
        self.index = index
        self.spent_ms = 0
        self.least_ms = self.most_ms = 0

    def go_to_sheet(self):
        """The next sheet of the batch, at its first step."""
        self.sheet_index += 1
        self.sheet += 1
        self.tally.clear()
        self.go_to(0)

    def steps(self):
        """The steps of the program; none without one."""
        return self.program.get("steps", ())

    def step(self):
        """The present step, or NO_STEP."""
        steps = self.steps()
        return steps[self.index] if self.index < len(steps) else NO_STEP

    def is_over(self):
        """Is the last step behind it? Only after a cut, and before the end is told."""
        return bool(self.program) and self.index >= len(self.steps())

    def has_next_step(self):
        """Does a step follow in this sheet's life?"""
        return self.index + 1 < len(self.steps())

    def next_step(self):
        """The step after this one, or NO_STEP."""
        return self.steps()[self.index + 1] if self.has_next_step() else NO_STEP

    def kind(self):
        """The row of the present step's kind; NO_KIND without a step."""
        return programs.kind_of(self.step())

    def time_ms(self):
        """The planned time of the present step, at most [ms]."""
        step = self.step()
        return programs.kind_of(step).time_ms(step)

    def lamp(self):
        """The lamp of the present light step."""
        return self.program["lamps"][self.step()["lamp"]]

    def is_light(self):
        """Is the present step a light?"""
        return self.step()["kind"] == programs.LIGHT

    def is_batch(self):
        """More than one sheet?"""
        return self.program["sheets"] > 1

    def has_next_sheet(self):
        """Does another sheet of the batch follow?"""
        return self.sheet_index + 1 < self.program["sheets"]

    def begin_light(self):
        """What is to be given of the present light: all of it, or after a cut the rest."""
        self.left_ms = self.missing_ms()
        self.light_ms = 0

    def missing_ms(self):
        """Light that is surely missing in the present step [ms]."""
        return max(0, self.step()["time_ms"] - self.most_ms)

    def rest_ms(self):
        """The most that may still be given in the present step [ms]."""
        return max(0, self.step()["time_ms"] - self.least_ms)

    def is_spent(self):
        """Has the sheet had so much of the light that was cut off that the relay cannot add the rest?"""
        return self.most_ms > 0 and self.rest_ms() < self.step()["least_ms"]

    def is_doubtful(self):
        """Is it not known how much of the present light the sheet has had?"""
        return self.least_ms != self.most_ms

    def settle(self, left_ms):
        """A person has chosen what is still to be given of a doubtful light."""
        self.least_ms = self.most_ms = self.step()["time_ms"] - left_ms

    def is_aside(self):
        """Does the present step run beside the others?"""
        return self.step().get("aside", 0) == 1

    def forget(self):
        """No program; the number stays, for the record of the end is still to be written."""
        self.program = NO_PROGRAM
        self.intent_open = False

    def focus(self):
        """No run: the set-up light under its own cap."""
        self.forget()
        self.number = self.sheet = self.index = 0
        self.sha = ""
        self.gate_ms = FOCUS_CAP_MS
        self.intent_open = True

    def book_light(self, gate_ms):
        """An exposure of `gate_ms` has ended: what it gave was counted, or is its time less the dead time."""
        self.gate_ms = gate_ms
        by_seconds_ms = max(0, gate_ms - self.step()["dead_ms"])
        self.spent_ms += by_seconds_ms
        counted_ms = self.dose.had_ms() if gate_ms else doses.NEVER_MS
        if counted_ms == doses.NEVER_MS:
            self.light_ms = by_seconds_ms
        elif abs(self.lit_left_ms - counted_ms) <= max(_WHOLE_MS, self.lit_left_ms // _WHOLE_PART):
            self.light_ms = self.lit_left_ms
        else:
            self.light_ms = counted_ms
        self.left_ms = max(0, self.lit_left_ms - self.light_ms)
        self.is_capped = counted_ms != doses.NEVER_MS and gate_ms >= self.cap_ms - 1

    def counted_cap_ms(self):
        """How long the gate may be high for what is left, if its light is counted [ms]."""
        step = self.step()
        planned_ms = self.left_ms + step["dead_ms"]
        whole_ms = doses.cap_ms(step["time_ms"]) - self.spent_ms - self.most_ms
        light_ms = min(doses.cap_ms(self.left_ms), whole_ms)
        return max(planned_ms, min(light_ms + step["dead_ms"], self.lamp()["cap_ms"], programs.LIGHT_CAP_MS))

    def burnt_ms(self, gate_ms):
        """Of an exposure under way, in gate time that gave as much: for what outlives a reset [ms]."""
        counted_ms = self.dose.had_ms()
        return gate_ms if counted_ms == doses.NEVER_MS else counted_ms + self.step().get("dead_ms", 0)

    def white_allowed(self, begun):
        """No sheet of this run stands before the step that permits white light; a step that is only
        waited for has not begun, and the sheet still stands before it."""
        reached = self.index if begun else self.index - 1
        return bool(self.program) and reached >= programs.white_from(self.program)
