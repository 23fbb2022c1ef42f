"""The loop of the controller: looks, lets the sequencer decide, does at once and in order what it wants.

Each turn asks in this order: the gate and the pedal, the timers, the lamp's sensor, the sound, then what
may wait: the display and the computer. The first four allocate nothing while the lamp is on. The computer
waits, for a second at most, while the foot is down and its release may light the lamp. An exposure ends by
hardware whatever this loop does; nothing here times it.
"""

import gc

from controller import boot_run, guard, screens
from controller.clock import NEVER_MS
from controller.journal import SPARE_RECORDS
from controller.keyboard import Caller
from controller.meter import Meter
from controller.sight import Sight
from footlight_core import const, gestures, records, wire
from footlight_core import effects as fx
from footlight_core import states as st
from footlight_core.errors import StorageError
from footlight_core.sequencer import Sequencer, sooner_ms
from footlight_core.session import Session

_REFRESH_MS = const(1000)  # so often at least every register of the display is written again
_LEAST_HEAP_BYTES = const(24_576)
_BYTES_A_TURN = const(128)
_RECORDS_A_STEP = const(3)  # of a light: announced, given, measured
_PRESS_MS = const(60)  # what the shortest press leaves to tidy up, and to look whether the foot is up again
_MOST_ERRORS = const(5)
_DROPPED = const(0)  # an effect that is not carried out any more

# What the guard hears of in every turn.
_TASK_FOOT = const(0)
_TASK_TIMERS = const(1)
_TASK_SCREEN = const(2)
_TASK_LINK = const(3)

# What the guard keeps over a reset: how long the light under way has burnt, in hundredths of a second, plus
# one; 0 when none is.
_MS_NOTED = const(10)

_PEDAL_FAULTS = (
    (gestures.TOO_LONG, st.LEANING_FOOT),
    (gestures.STUCK, st.STUCK_PEDAL),
    (gestures.WIRE, st.PEDAL_WIRE),
    (gestures.WET, st.WET_PEDAL),
)


class App:
    """`parts`: a parts.Parts."""

    def __init__(self, parts):
        self._clock = parts.clock
        self._pedal = parts.pedal
        self._lamp = parts.lamp
        self._display = parts.display
        self._sound = parts.sound
        self._store = parts.store
        self._journal = parts.journal
        self._port = parts.port
        self._guard = parts.guard
        self._white = parts.white
        self._legs = parts.legs
        self.seq = Sequencer(parts.store, self.may_arm, self.counts)
        known, dose = parts.store.sensor, self.seq.run.dose
        self._meter = Meter(parts.sense, parts.clock, parts.lamp, known, dose)
        self._sight = Sight(self._meter.burns, known)
        facts = {"id": parts.identity}
        self._session = Session(
            parts.store,
            parts.journal,
            facts,
            self.status,
            self.seq.is_idle,
            self._maintain,
            self._count_on,
            self.sense,
        )
        self._lines = wire.LineBuffer()
        self._caller = Caller()
        self._burning = False
        self._gate_ms = NEVER_MS  # of an exposure that has ended, until the sequencer knows it
        self._lit_ms = 0
        self._unseen = False  # the exposure under way has given no light, for the lamp is dead
        self._screen_ms = 0
        self._applied = 0  # effects already carried out
        self._number = NEVER_MS  # of the record that is being written
        self._trouble = st.NO_FAULT  # met while effects were applied
        self._errors = 0
        self._more_bytes = False
        self._leaving = False

    def run(self):
        """Until the computer asks for the prompt, by message or as its tools do."""
        self._guarded(self._start)
        self._guard.start()
        while not self._leaving or self._port.is_busy():
            self._guarded(self._turn)

    def may_arm(self, program):
        """0, or the code of what forbids a run of `program`, or the set-up light (None)."""
        gc.collect()
        if self._sight.is_welded():
            return st.WELDED_RELAY
        if self._legs.code != st.NO_FAULT:
            return self._legs.code
        if self._journal.worn:
            return st.NO_RECORD
        if self._guard.free_heap() < _LEAST_HEAP_BYTES:
            return st.NO_MEMORY
        if self._journal.room() < records_wanted(program):
            return st.FULL_FLASH
        return 0

    def status(self):
        """What a computer may see of the run."""
        seq, run = self.seq, self.seq.run
        return {
            "state": seq.state,
            "t": self._clock.now_ms(),
            "slot": run.slot,
            "sha": run.sha[: records.SHA_CHARS],
            "run": run.number,
            "sheet": run.sheet,
            "step": run.index + 1,
            "start": run.start_ms,
            "left_ms": run.left_ms,
            "gate_ms": run.gate_ms,
            "dose_ms": run.dose.had_ms() if self._burning else NEVER_MS,
            "white": seq.white,
            "fault": seq.fault_code,
            "found": self._journal.found,
        }

    def counts(self, lamp):
        """May the lights of the lamp of that name be counted?"""
        return self._meter.counts(lamp)

    def sense(self):
        """What the light sensor reads: for the computer that learns from it."""
        return {
            "reading": self._meter.reading(),
            "lit": int(self._burning),
            "t": self._clock.now_ms(),
            "tail_ms": self.seq.run.dose.tail_ms,
        }

    # -- one turn ----------------------------------------------------------------------------------

    def _start(self):
        code = self._legs.trial()
        now_ms = self._clock.now_ms()
        try:
            self._begin(now_ms)
        except StorageError:
            raise
        except Exception:  # noqa: BLE001 - an error of the moment must not hide a run that was cut off
            gc.collect()
            self._begin(now_ms)
        self._follow(now_ms)
        # Without a supply there is nothing to be afraid of, and much that a computer may want to do.
        if code not in (st.NO_FAULT, st.NO_SUPPLY):
            self._handle(st.TROUBLE, code, now_ms)

    def _begin(self, now_ms):
        boot_run.begin(self.seq, self._store, self._journal, self._guard, now_ms, _MS_NOTED)

    def _turn(self):
        now_ms = self._clock.now_ms()
        self.urgent(now_ms)
        self._serve_screen(now_ms)
        self._guard.report(_TASK_SCREEN)
        if not self._pedal.is_brief():
            self._serve_link(now_ms)
        self._guard.report(_TASK_LINK)
        self._guard.feed_if_all_reported()
        self._clock.rest_until(self._due_ms())

    def urgent(self, now_ms):
        """Gate, pedal, timers, sensor, sound: nothing of this allocates while the lamp is on."""
        self._serve_foot(now_ms)
        self._guard.report(_TASK_FOOT)
        while self.seq.tick(now_ms):
            self._follow(now_ms)
        self._meter.look(now_ms)
        self._serve_sight(now_ms)
        self._serve_legs(now_ms)
        if self._burning:
            self._guard.note(guard.HANG, self.seq.run.burnt_ms(now_ms - self._lit_ms) // _MS_NOTED + 1)
        self._sound.tick(now_ms)
        self._guard.report(_TASK_TIMERS)

    def _serve_foot(self, now_ms):
        # The gate is asked before the pedal: a press that the hardware has already answered is then
        # seen no later than its effect, and so can mean nothing but this stop.
        self._ask_gate()
        event = self._pedal.look(now_ms)
        if self._burning and self._gate_ms == NEVER_MS and self._pedal.touched():
            self._lamp.stop()
            self._ask_gate()
        if self._gate_ms != NEVER_MS:
            self._end_light(now_ms)
        if event != gestures.NONE:
            self._foot(event, now_ms)

    def _ask_gate(self):
        # Kept until it is handed over, for it can be read only once.
        if self._burning and self._gate_ms == NEVER_MS:
            self._gate_ms = self._lamp.read_gate_ms()

    def _end_light(self, now_ms):
        self._sight.gate(False, now_ms)
        self._meter.dark(self._gate_ms)
        self._handle(st.GATE, 0 if self._unseen else self._gate_ms, now_ms)
        # Forgotten only now: after an error on the way the sequencer is told again, and books it once.
        self._burning = self._unseen = False
        self._gate_ms = NEVER_MS
        # Only now, for by now the record of it is written.
        self._guard.note(guard.HANG, 0)

    def _foot(self, event, now_ms):
        if event == gestures.PRESS:
            self._handle(st.PRESS, self._pedal.press_ms(), now_ms)
        elif event == gestures.SHORT:
            self._handle(st.SHORT, self._pedal.press_ms(), now_ms)
        elif event == gestures.LONG:
            self._handle(st.LONG, self._pedal.press_ms(), now_ms)
        elif event == gestures.COUNTS:
            self._sound.play(fx.COUNTS, now_ms)
        if event == gestures.PRESS and not self._burning:
            # The release may start a light. Tidied now, while the foot is down, and the next frame waits:
            # none of that may stand between the release and the gate.
            gc.collect()
            self._screen_ms = max(self._screen_ms, now_ms + _PRESS_MS)
        for known, code in _PEDAL_FAULTS:
            if known == event:
                self._handle(st.TROUBLE, code, now_ms)

    def _serve_sight(self, now_ms):
        code = self._sight.look(now_ms)
        if code != st.NO_FAULT:
            # A lamp that burnt and went out has given light: the gate's time counts, for too much is worse.
            self._unseen = code == st.NO_LIGHT and self._sight.gave_none()
            self._handle(st.TROUBLE, code, now_ms)

    def _serve_legs(self, now_ms):
        code = self._legs.look(self.seq.white)
        if code == st.WHITE_OPEN or (code == st.NO_SUPPLY and not self.seq.is_idle()):
            self._handle(st.TROUBLE, code, now_ms)
        if self._legs.supply_is_back() and self.seq.is_idle():
            self._legs.trial()

    def _serve_screen(self, now_ms):
        if now_ms < self._screen_ms:
            return
        until_ms = now_ms + _REFRESH_MS
        try:
            text, big, brightness, wanted_ms = screens.screen(self.seq, now_ms)
            self._display.show(text, big, brightness)
            until_ms = min(until_ms, max(wanted_ms, now_ms + 1))
        except MemoryError:
            # A frame may be lost; the run may not.
            gc.collect()
        self._screen_ms = until_ms

    def _serve_link(self, now_ms):
        try:
            self._more_bytes = self._exchange(now_ms)
        except MemoryError:
            # A reply may be lost, for the computer asks again.
            self._more_bytes = False
            gc.collect()

    def _exchange(self, now_ms):
        """Send some, or read up to a whole line and answer it -> may there be more to read?"""
        self._port.pump(now_ms)
        if self._port.is_busy():
            return False
        for _ in range(_BYTES_A_TURN):
            byte = self._port.read()
            if byte < 0:
                return False
            # The prompt is only for a controller that does nothing. What comes next is for it to read.
            if self._caller.asks(byte, now_ms) and self.seq.is_idle():
                self._leaving = True
                return True
            line = self._lines.feed(byte)
            if line:
                self._answer(line, now_ms)
                return True
        return True

    def _answer(self, line, now_ms):
        if not self._burning:
            # What the answer changes may be shown, and may be written.
            self._guard.feed_for_writing()
            self._screen_ms = now_ms
        reply = self._session.handle(line)
        if reply:
            self._port.write(reply, now_ms)

    def _due_ms(self):
        due_ms = sooner_ms(self._screen_ms, self.seq.due_ms())
        due_ms = sooner_ms(due_ms, self._pedal.due_ms())
        due_ms = sooner_ms(due_ms, self._sound.due_ms())
        due_ms = sooner_ms(due_ms, sooner_ms(self._sight.due_ms(), self._meter.due_ms()))
        if self._pedal.is_brief():
            return due_ms
        if self._more_bytes:
            return self._clock.now_ms()
        return sooner_ms(due_ms, self._port.due_ms())

    # -- what the sequencer wants ------------------------------------------------------------------

    def _handle(self, event, arg, now_ms):
        if self.seq.handle(event, arg, now_ms):
            self._follow(now_ms)

    def _follow(self, now_ms):
        """Do what was decided, then what that brought about."""
        self._apply(now_ms)
        self._screen_ms = now_ms
        if self._trouble != st.NO_FAULT:
            code, self._trouble = self._trouble, st.NO_FAULT
            if not (self.seq.state == st.FAULT and self.seq.fault_code == code):
                self._handle(st.TROUBLE, code, now_ms)

    def _apply(self, now_ms):
        # The place is kept, so that an error costs only the effect in which it came; and a record none,
        # for it is written once the fault is told, unless the journal has taken it before the error.
        queue = self.seq.effects
        while self._applied < queue.count:
            index = self._applied
            kind = queue.kinds[index]
            if kind != fx.RECORD:
                self._applied += 1
                self._do(kind, queue.values[index], queue.notes[index], now_ms)
            else:
                if self._number == NEVER_MS:
                    self._number = self._journal.next_number()
                if self._number == self._journal.next_number():
                    self._do(kind, queue.values[index], queue.notes[index], now_ms)
                self._applied, self._number = self._applied + 1, NEVER_MS
        queue.clear()
        self._applied = 0

    def _do(self, kind, value, note, now_ms):
        if kind == fx.LAMP_OFF:
            self._lamp.stop()
        elif kind == fx.LAMP_ON:
            self._light(value, now_ms)
        elif kind == fx.SOUND:
            self._sound.play(value, now_ms)
        elif kind == fx.WHITE:
            self._white(value)
        elif kind != _DROPPED:
            self._write(kind, value, note, now_ms)

    def _light(self, most_ms, now_ms):
        self._burning = True
        self._lit_ms = now_ms
        self._guard.note(guard.HANG, 1)
        run = self.seq.run
        self._sight.gate(True, now_ms, not run.is_light())
        lamp = run.lamp()["name"] if run.is_light() else ""
        self._meter.light(lamp, run.lit_left_ms, run.gate_ms, most_ms, now_ms)

    def _write(self, kind, value, note, now_ms):
        # Only ever reached with the lamp off: an exposure's records come after its end.
        self._guard.feed_for_writing()
        try:
            if kind == fx.KEEP:
                self._store.keep(self.seq.ledger)
            else:
                self._journal.append(records.from_note(value, note, self.seq.run), now_ms)
        except StorageError:
            self._trouble = st.NO_RECORD

    # -- when something is wrong -------------------------------------------------------------------

    def _guarded(self, work):
        try:
            work()
            if self.seq.state != st.FAULT:
                self._errors = 0
        except Exception as error:  # noqa: BLE001 - whatever it is, the lamp goes off and a person is told
            self._lamp.stop()
            self._errors += 1
            # A fault that comes back while it is shown is past mending here: main ends in the dark.
            if self._errors > _MOST_ERRORS:
                raise
            self._drop_light()
            self._handle(st.TROUBLE, _fault_of(error), self._clock.now_ms())

    def _drop_light(self):
        # What was still to be written is written; what was still to be lit is not, and gave nothing.
        queue = self.seq.effects
        for index in range(max(0, self._applied - 1), queue.count):
            if queue.kinds[index] == fx.LAMP_ON and not self._lamp.lit():
                queue.kinds[index] = _DROPPED
                self._burning = False
                self._gate_ms = 0

    def _count_on(self, sheet):
        if self.seq.ledger.count_on(sheet):
            self._store.keep(self.seq.ledger)
        return self.seq.ledger.next_sheet

    def _maintain(self):
        self._leaving = True


def records_wanted(program):
    """The most records that a run of `program` may write, or the set-up light (None)."""
    if not program:
        return SPARE_RECORDS
    return _RECORDS_A_STEP * len(program["steps"]) * program["sheets"] + SPARE_RECORDS


def _fault_of(error):
    if isinstance(error, MemoryError):
        return st.NO_MEMORY
    return st.NO_RECORD if isinstance(error, StorageError) else st.EXCEPTION
