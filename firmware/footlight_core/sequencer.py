"""The sequencer: what each event does in each state, as one table (`table.TABLE`).

Theory of operation. The pedal gives three events: PRESS the moment the foot is surely down, and on
release SHORT or LONG. **Release starts, press stops.** A gesture counts only if its press first touched
*after* the present state was entered, and a moment after, for the hardware may have ended a light on a
touch that was not seen yet: the press that stops a light can therefore never resume or abandon it, and a
foot that was down when a bath ended does not end the next one. Whatever starts or advances something
also wants half a second of quiet after entry, so that a double tap is one tap; stopping never waits.

Timers give DUE (the phase of a step ends) and BEAT (the metronome; each beat follows from the last one,
so it never drifts). The gate gives GATE when an exposure has ended, with the time it was really open.
TROUBLE can come in any state. Actions push effects (`effects.Effects`), which a thin loop applies at
once and in order. On the rows of LIT nothing is allocated.
"""

from . import const, entries, records
from . import effects as fx
from . import states as st
from .duty import Duty
from .run import Ledger, Run
from .states import NEVER_MS
from .table import ROWS

_NOTICE_MS = const(2500)
# Less than anyone takes to answer what they see; more than the pedal can lag behind the gate.
_BLIND_MS = const(100)
_MOST_ASIDE = const(4)


class Sequencer:
    """State, run and timers. `handle` takes events; `tick` lets timers speak; `due_ms` says when."""

    def __init__(self, shelf, may_arm, counts=None):
        # shelf: entries() -> tuple of (slot, sha, title); load(slot, sha) -> program, None if damaged.
        # may_arm(program, or None for the set-up light) -> 0, or the fault code that forbids it.
        # counts(name of a lamp) -> may its light be counted?
        self.shelf = shelf
        self.may_arm = may_arm
        self.counts = counts or _never
        self.effects = fx.Effects()
        self.ledger = Ledger()
        self.run = Run()
        self.duty = Duty()
        self.state = st.IDLE
        self.now_ms = 0
        self.arg = 0
        self.entered_ms = NEVER_MS
        self.phase_ms = NEVER_MS
        self.beat_ms = NEVER_MS
        self.lit_ms = 0  # when the lamp was last switched on
        self.ready_ms = 0  # when a wet sheet has settled
        self.choice = 0  # in idle, pick and menu
        self.stirring = False
        self.cue_index = 0
        self.rings = 0
        self.aside = []  # (due_ms, shown text) of clocks that run beside the steps
        self.notice = ""
        self.notice_ms = NEVER_MS
        self.fault_code = st.NO_FAULT
        self.origin = st.IDLE
        self.white = 0
        self.white_before = 0  # the fault

    def handle(self, event, arg, now_ms):
        """One event; True if a rule was found for it.

        `arg`: for PRESS, SHORT and LONG when the press first touched [ms]; for GATE the real gate time
        [ms]; for TROUBLE its code.
        """
        self.now_ms = now_ms
        self.arg = arg
        if (event == st.SHORT or event == st.LONG) and self._is_blind(arg):
            return False
        if event == st.GATE and self._awaits_gate():
            self._book(arg)
        for row in ROWS[self.state]:
            if row[1] == event and row[2](self):
                row[3](self)
                if row[4] is not None:
                    self._enter(row[4])
                return True
        return False

    def tick(self, now_ms):
        """Let one timer that is due speak. Returns True if one did: call again."""
        if self._tick_aside(now_ms):
            return True
        if self.notice_ms != NEVER_MS and now_ms >= self.notice_ms:
            self.notice = ""
            self.notice_ms = NEVER_MS
            return True
        if self.state == st.FAULT:
            return False
        if self.beat_ms != NEVER_MS and now_ms >= self.beat_ms:
            if not self.handle(st.BEAT, 0, now_ms):
                # Left over from an error on the way here: in this state nothing beats.
                self.beat_ms = NEVER_MS
            return True
        if self.phase_ms != NEVER_MS and now_ms >= self.phase_ms:
            due_ms = self.phase_ms
            self.handle(st.DUE, 0, now_ms)
            # Only now, unless it was set anew: after an error on the way it speaks once more.
            if self.phase_ms == due_ms:
                self.phase_ms = NEVER_MS
            return True
        return False

    def due_ms(self):
        """When `tick` has something to do [ms], or NEVER_MS."""
        due_ms = self.notice_ms
        if self.state != st.FAULT:
            due_ms = sooner_ms(due_ms, sooner_ms(self.phase_ms, self.beat_ms))
        for clock in self.aside:
            due_ms = sooner_ms(due_ms, clock[0])
        return due_ms

    def is_idle(self):
        """May programs and journal be changed?"""
        return self.state == st.IDLE or self.state == st.DONE

    def is_lit(self):
        """Is an exposure under way?"""
        return self.state == st.LIT or self.state == st.FOCUS_LIT

    def menu_entry(self):
        """What a long press would choose in the menu."""
        return st.MENU_ENTRIES[self.choice % len(st.MENU_ENTRIES)]

    def idle_entry(self):
        """What idle shows: (slot, sha, title), or one of the fixed entries."""
        titles = self.shelf.entries()
        choice = self.choice % (len(titles) + len(st.FIXED_ENTRIES))
        return titles[choice] if choice < len(titles) else st.FIXED_ENTRIES[choice - len(titles)]

    def picked_sheet(self):
        """The sheet that a long press would take."""
        candidates = self.ledger.candidates()
        return candidates[self.choice % len(candidates)]

    def lamp_wait_ms(self):
        """How long the lamp must cool before the present light [ms]; 0 = it may go on."""
        gate_ms = self.run.left_ms + self.run.step()["dead_ms"]
        return self.duty.wait_ms(self.now_ms, gate_ms, self.run.lamp()["window_ms"])

    def cap_ms(self):
        """How long the gate may be high [ms]: as planned, or a third of a stop longer."""
        run = self.run
        if not self.counts(run.lamp()["name"]):
            return run.gate_ms
        free_ms = run.lamp()["window_ms"] - self.duty.used_ms(self.now_ms)
        return max(run.gate_ms, min(run.counted_cap_ms(), free_ms))

    def resume_broken(self, program, broken, now_ms):
        """After a reset in a run. `broken`: a recovery.Recovery; `program`: None if it is lost."""
        self.now_ms = now_ms
        run = self.run
        run.load(program, broken.slot, broken.sha, broken.run, broken.sheet)
        run.sheet_index = broken.sheet - broken.first_sheet
        run.tally = broken.tally
        run.index = max(broken.step, 1) - 1
        run.least_ms, run.most_ms = broken.least_ms(), broken.most_ms()
        if run.is_over():
            # The last step had ended: the next sheet comes, or only the record of the end is missing.
            entries.resolve(self, st.WAIT_NEXT)
        elif broken.has_gap and run.is_light():
            # The record that is missing may have been that of this very light.
            run.most_ms += run.step()["time_ms"]
            run.tally.add(run.index + 1, 0, run.step()["time_ms"])
        self._enter(st.BROKEN)

    def rest_entry(self):
        """What a long press would choose for a doubtful light: (word, light still to be given [ms])."""
        run = self.run
        entries_ms = [(st.NONE, 0), (st.MAX, run.rest_ms())]
        if run.missing_ms() >= run.step()["least_ms"]:
            entries_ms.insert(0, (st.MIN, run.missing_ms()))
        return entries_ms[self.choice % len(entries_ms)]

    # -- what actions and entries are made of ------------------------------------------------------

    def say(self, notice):
        """Show a short text for a moment."""
        self.notice = notice
        self.notice_ms = self.now_ms + _NOTICE_MS

    def sound(self, sound):
        """Make a sound."""
        self.effects.push(fx.SOUND, sound)

    def record(self, kind):
        """Record something about the run as a whole."""
        self.effects.record(kind, self.run.index + 1, self.run.sheet)

    def clear_timers(self):
        """No phase and no metronome."""
        self.phase_ms = self.beat_ms = NEVER_MS

    def wait_again(self):
        """Give the foot its time to choose, from now on."""
        if self.state == st.MENU:
            self.phase_ms = self.now_ms + entries.MENU_MS
        elif self.state == st.PICK:
            self.phase_ms = self.now_ms + entries.PICK_MS

    def set_white(self, begun):
        """White light as the present step allows it, once it has begun."""
        self._switch_white(1 if self.run.white_allowed(begun) else 0)

    def lock_white(self):
        """No white light."""
        self._switch_white(0)

    def begin_step(self):
        """The present step begins now."""
        self.clear_timers()
        self.set_white(True)
        self.run.start_ms = self.now_ms
        self.record(records.BEGIN)
        self.sound(fx.START)

    def end_step(self, how):
        """The present step has ended."""
        run = self.run
        self.clear_timers()
        real_ms = self.now_ms - run.start_ms
        self.effects.record(records.STEP, run.index + 1, run.sheet, run.start_ms, real_ms, 0, how)

    def end_run(self, how):
        """The run has ended."""
        self.effects.record(records.END, self.run.index + 1, self.run.sheet, 0, 0, 0, how)

    def start_aside(self):
        """The present step begins, runs beside the others and is not waited for."""
        self.begin_step()
        self.end_step(records.ASIDE)
        if len(self.aside) == _MOST_ASIDE:
            self.aside.pop(0)
        self.aside.append((self.now_ms + self.run.time_ms(), self.run.step()["show"]))

    def set_beat(self):
        """When the metronome of the present bath beats next."""
        step = self.run.step()
        passed_ms = self.now_ms - self.run.start_ms
        if "cues" in step:
            next_ms = next_cue_ms(step, self.cue_index)
        else:
            next_ms = next_stir_ms(step, passed_ms, self.stirring)
        self.beat_ms = NEVER_MS if next_ms == NEVER_MS else self.run.start_ms + next_ms

    def _switch_white(self, allowed):
        if allowed != self.white:
            self.white = allowed
            self.effects.push(fx.WHITE, allowed)

    def _enter(self, target):
        if target == st.ORIGIN:
            self._return()
            return
        state = entries.resolve(self, target)
        # Lift and over-time are one to the foot: the press means the same in both.
        if not (self.state == st.LIFT and state == st.OVER):
            self.entered_ms = self.now_ms
        self.state = state
        entries.enter(self, state)

    def _return(self):
        # Where a light was broken off, something new begins; everything else goes on as it was, and
        # timers that passed meanwhile speak now, one after the other.
        if self.origin in (st.HELD, st.WAIT_NEXT, st.IDLE):
            self._enter(self.origin)
            return
        self.state = self.origin
        self.entered_ms = self.now_ms
        self._switch_white(self.white_before)

    def _is_blind(self, touch_ms):
        return self.entered_ms != NEVER_MS and touch_ms < self.entered_ms + _BLIND_MS

    def _awaits_gate(self):
        if self.state == st.FAULT:
            return self.origin == st.LIT or self.origin == st.FOCUS_LIT
        return self.is_lit()

    def _book(self, gate_ms):
        # The gate's report is booked before any rule looks, so that guards see what is left. Told again
        # after an error it changes nothing, but that the lamp may count as warmer than it is.
        if self.run.is_light():
            self.run.book_light(gate_ms)
        else:
            self.run.gate_ms = gate_ms
        self.duty.add(self.now_ms, gate_ms)

    def _tick_aside(self, now_ms):
        for index in range(len(self.aside)):
            if now_ms >= self.aside[index][0]:
                self.now_ms = now_ms
                self.say(self.aside.pop(index)[1])
                self.sound(fx.WASH)
                return True
        return False


def _never(lamp):
    return False


def sooner_ms(one_ms, other_ms):
    """The earlier of two times, either of which may be NEVER_MS."""
    if one_ms == NEVER_MS:
        return other_ms
    if other_ms == NEVER_MS or one_ms < other_ms:
        return one_ms
    return other_ms


def next_cue_ms(step, cue_index):
    """Time of a cue within its step [ms], or NEVER_MS."""
    cues = step["cues"]
    return cues[cue_index][0] if cue_index < len(cues) else NEVER_MS


def next_stir_ms(step, passed_ms, stirring):
    """When agitation begins or ends next, from the start of the bath [ms], or NEVER_MS.

    It lasts `first` from the start; then `for` at each whole `every` after that; never in the lift.
    """
    first_ms = step.get("stir_first_ms", 0)
    every_ms = step.get("stir_every_ms", 0)
    if passed_ms == 0 and first_ms and not stirring:
        return 0
    if passed_ms < first_ms:
        next_ms = first_ms
    elif not every_ms:
        return NEVER_MS
    else:
        since_ms = (passed_ms - first_ms) % every_ms
        next_ms = passed_ms - since_ms + (step["stir_for_ms"] if stirring else every_ms)
    return next_ms if next_ms < step["time_ms"] - step["lift_ms"] else NEVER_MS
