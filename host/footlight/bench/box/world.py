"""Virtual time and everything that happens in it.

The firmware runs in no time at all; time passes only while it sleeps, and then it jumps from one thing to
the next: a gate that ends, a contact that moves, the watchdog, the limit up to which the driver has
granted time. At that limit (or after an event that the driver asked to stop at) the box says so and obeys
commands until it is granted more. A sleep ends early when an input has changed: this machine wakes on its
own inputs.
"""

import gc

# Few, because a line of the display is long and the heap is small.
_FLUSH_LINES = 12
# Instead of kinds: stop after any event, but only when the firmware has done all that it does at that time.
_ANY = "*"


class PowerCut(BaseException):
    """Nothing of the firmware may run any more; no handler of its own may catch this."""


class World:
    """The clock, the agenda and the channel. One of it, made by `begin`."""

    def __init__(self, read_line, write, start_us):
        self._read_line = read_line
        self._write = write
        self._lines = []
        self._agenda = []  # [at_us, order, function, argument], the soonest first
        self._order = 0
        self._stop_kinds = ()
        self._stops_after = False
        self._halting = False
        self.commands = {"go": self._go, "at": self._at, "wake": self._wake}
        self.commands["hang"] = self._hang
        self.commands["heap"] = self._heap
        self.commands["eat"] = self._eat
        self.commands["raise"] = self._raise
        self.commands["pause"] = self._pause
        self.before_time_passes = []  # called before the clock moves on
        self.start_us = start_us
        self.ticks_start_us = 0
        self.now_us = start_us
        self.limit_us = start_us
        self.awake = False
        self.hung = False
        self._eaten = []
        self.raised = None  # an exception that the next sleep raises
        self._pause_us = 0  # how long the processor will stand still, and at which kind of event
        self._pause_kind = ""
        self._by_hardware = False

    def emit(self, kind, text=""):
        """Tell the driver of an event; wait for it if it asked to stop at this kind."""
        self._lines.append("%d %s %s\n" % (self.now_us, kind, text))
        if self._stops_after:
            self.limit_us = self.now_us
        if kind in self._stop_kinds and not self._halting:
            self.halt()
        elif len(self._lines) >= _FLUSH_LINES:
            self.flush()
        if kind == self._pause_kind and not (self._halting or self._by_hardware):
            self._stand_still()

    def flush(self):
        """Send what is collected."""
        if self._lines:
            lines, self._lines = self._lines, []
            self._write("".join(lines).encode())

    def tell_what_is_seen(self):
        """Whatever shows only once the firmware is done with it."""
        for notify in self.before_time_passes:
            notify()

    def after(self, delay_us, function, argument=None):
        """Put something on the agenda -> its entry, for `drop`."""
        self._order += 1
        entry = [self.now_us + delay_us, self._order, function, argument]
        place = len(self._agenda)
        while place and self._agenda[place - 1][0] > entry[0]:
            place -= 1
        self._agenda.insert(place, entry)
        return entry

    def drop(self, entry):
        """Take something off the agenda, if it is still there."""
        if entry in self._agenda:
            self._agenda.remove(entry)

    def sleep_us(self, span_us):
        """Let time pass, up to `span_us`, or until an input changes."""
        end_us = self.now_us + max(0, span_us)
        while self.hung or (not self.awake and self.now_us < end_us):
            self._step(end_us)
        self.awake = False
        if self._pause_us and not self._pause_kind:
            self._stand_still()
        if self.raised:
            raised, self.raised = self.raised, None
            raise raised

    def spend_us(self, span_us):
        """Time that something takes, whatever happens meanwhile."""
        end_us = self.now_us + span_us
        while self.now_us < end_us:
            self._step(end_us)

    def die(self, kind, text):
        """The firmware ends here and now; the driver ends the process, so that nothing more can run."""
        self.emit(kind, text)
        self.flush()
        while self._read_line():
            pass
        raise PowerCut()

    def halt(self):
        """Tell how far time has come, and obey until more is granted."""
        self._halting = True
        self.tell_what_is_seen()
        self._lines.append("@%d\n" % self.now_us)
        self.flush()
        self._stop_kinds = ()
        granted = False
        while not granted:
            granted = self._obey()
        self._halting = False

    def _obey(self):
        line = self._read_line()
        if not line:
            raise PowerCut()
        words = line.decode().split()
        return self.commands[words[0]](words[1:])

    def _step(self, end_us):
        if self._next_us(end_us) > self.now_us:
            begin_us = self.now_us
            self.tell_what_is_seen()
            if self.now_us > begin_us:
                return  # a pause took its time there, in which an input may have ended the sleep
        # Only now, for what was just told may have ended the time that is granted.
        self.now_us = max(self.now_us, self._next_us(end_us))
        if self._agenda and self._agenda[0][0] <= self.now_us:
            entry = self._agenda.pop(0)
            self._by_hardware = True
            entry[2](entry[3])
            self._by_hardware = False
        elif self.now_us >= self.limit_us and (self.hung or self.now_us < end_us):
            self.halt()

    def _next_us(self, end_us):
        # A hung processor sleeps for ever, but the hardware goes on.
        next_us = self.limit_us if self.hung else min(end_us, self.limit_us)
        return min(next_us, self._agenda[0][0]) if self._agenda else next_us

    def _go(self, words):
        self.limit_us = max(self.now_us, int(words[0]))
        kinds = words[1] if len(words) > 1 else ""
        self._stops_after = kinds == _ANY
        self._stop_kinds = tuple(kinds.split(","))
        return True

    def _at(self, words):
        self.after(max(0, int(words[0]) - self.now_us), self._do, words[1:])

    def _do(self, words):
        self.commands[words[0]](words[1:])

    def _wake(self, words):
        self.awake = True

    def _heap(self, words):
        gc.collect()
        self.emit("heap", str(gc.mem_free()))

    def _eat(self, words):
        # Down to so many free bytes; in small pieces, for the heap may hold no single large one.
        gc.collect()
        while gc.mem_free() > int(words[0]):
            self._eaten.append(bytearray(256))

    def _raise(self, words):
        # raise [memory]
        self.raised = MemoryError() if words else ValueError("raised by the bench")
        self.awake = True

    def _pause(self, words):
        # pause <us> [kind of event]: as a long garbage collection does, now or where that event comes about.
        self._pause_us = int(words[0])
        self._pause_kind = words[1] if len(words) > 1 else ""
        self.awake = self.awake or not self._pause_kind

    def _stand_still(self):
        span_us, self._pause_us, self._pause_kind = self._pause_us, 0, ""
        self.emit("pause", str(span_us))
        self.spend_us(span_us)

    def _hang(self, words):
        self.hung = True


world = None


def begin(read_line, write, start_us):
    """Make the one world of this process."""
    global world
    world = World(read_line, write, start_us)
    return world
