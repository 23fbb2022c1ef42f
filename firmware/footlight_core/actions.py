"""What happens on the rows of the table: pushes effects and moves the run; decides nothing."""

from . import const, records
from . import effects as fx
from . import states as st
from .dose import COUNTED, NEVER_MS
from .run import BRIGHTNESS_LEVELS, FOCUS_CAP_MS

_RING_MS = const(1000)
_RINGS = const(3)
_SOFT_RING_MS = const(5000)
_BY_TIME = "BYTIME"  # the sensor did not serve: the light went by seconds


def nothing(seq):
    """Only the state changes."""


# -- choosing --------------------------------------------------------------------------------------


def turn(seq):
    """Show the next entry."""
    seq.choice += 1
    seq.wait_again()
    seq.sound(fx.TURN)


def say_no(seq):
    """Not now."""
    seq.sound(fx.NO)


def say_wait(seq):
    """Not yet: the sheet must settle, or the lamp must cool."""
    seq.sound(fx.NO)
    seq.say("WAIT" if seq.now_ms < seq.ready_ms or seq.lamp_wait_ms() == 0 else "COOL")


def say_soon(seq):
    """Too soon after the last press: nothing is missed without a word."""
    seq.sound(fx.NO)
    seq.say("WAIT")


def say_why(seq):
    """A run cannot be armed: show the word of the fault that forbids it."""
    seq.sound(fx.NO)
    code = seq.may_arm(seq.run.program)
    seq.say(st.fault_word(code) if code else "HASH")


def show_last(seq):
    """The number of the last sheet."""
    seq.say("%d" % seq.ledger.last_sheet)
    seq.sound(fx.TURN)


def change_brightness(seq):
    """The next level of the display, from dark to bright and round again."""
    ledger = seq.ledger
    ledger.brightness = (ledger.brightness + 1) % BRIGHTNESS_LEVELS
    seq.effects.push(fx.KEEP)
    seq.say("DARK" if ledger.brightness == 0 else "LEVEL%d" % ledger.brightness)
    seq.sound(fx.TURN)


def open_sequence(seq):
    """Fetch the chosen program; None when it is damaged."""
    slot, sha, _ = seq.idle_entry()
    seq.run.load(seq.shelf.load(slot, sha), slot, sha, seq.ledger.next_run, seq.ledger.next_sheet)
    seq.choice = 0


def arm(seq):
    """A run begins with the picked sheet."""
    begin_run(seq, seq.picked_sheet())


def reopen(seq):
    """The same sequence again; fetched anew, for it may have been replaced meanwhile."""
    run = seq.run
    run.load(seq.shelf.load(run.slot, run.sha), run.slot, run.sha, run.number, run.sheet)
    seq.choice = 0


def begin_run(seq, sheet):
    """Number, sheet and record of a new run. A batch always takes new sheets."""
    run, ledger = seq.run, seq.ledger
    if run.is_batch():
        sheet = ledger.next_sheet
    run.load(run.program, run.slot, run.sha, ledger.next_run, sheet)
    ledger.next_run += 1
    ledger.take(sheet)
    seq.effects.push(fx.KEEP)
    seq.record(records.ARM)
    seq.sound(fx.READY)


def open_menu(seq):
    """The menu, at its harmless entry."""
    seq.choice = 0
    seq.sound(fx.TURN)


def step_back(seq):
    """To the step before this one."""
    _move_to(seq, max(0, seq.run.index - 1))


def step_over(seq):
    """This step is not carried out."""
    if seq.run.intent_open:
        close_intent(seq, records.SKIPPED)
    else:
        seq.run.start_ms = seq.now_ms
        seq.end_step(records.SKIPPED)


def start_again(seq):
    """To the first step, with the same sheet."""
    _move_to(seq, 0)


def _move_to(seq, index):
    # It is recorded, for a power cut may come before the next step begins.
    close_intent(seq, records.SKIPPED)
    seq.run.go_to(index)
    seq.record(records.MOVE)


def leave(seq):
    """The run is left."""
    close_intent(seq, records.SKIPPED)
    seq.end_run(records.LEFT)


def leave_broken(seq):
    """The program of the broken run is gone: the run ends here."""
    seq.end_run(records.BROKEN)


def forget(seq):
    """Back to the titles."""
    seq.choice = 0


# -- baths -----------------------------------------------------------------------------------------


def begin_aside(seq):
    """The present step begins beside the others."""
    seq.start_aside()


def ring_ready(seq):
    """The sheet has settled."""
    seq.sound(fx.READY)


def ring_lift(seq):
    """Lift and drip."""
    seq.phase_ms = seq.run.start_ms + seq.run.time_ms()
    seq.sound(fx.LIFT)


def ring_time(seq):
    """The time is up."""
    seq.rings = 1
    seq.beat_ms = seq.now_ms + _RING_MS
    seq.sound(fx.TIME)


def ring_on(seq):
    """Over time: three rings, then a soft one every five seconds."""
    seq.rings += 1
    seq.beat_ms += _RING_MS if seq.rings < _RINGS else _SOFT_RING_MS
    seq.sound(fx.TIME if seq.rings <= _RINGS else fx.OVER)


def beat(seq):
    """A beat within a bath: agitation begins or ends, or a cue of a step by hand."""
    if "cues" in seq.run.step():
        seq.cue_index += 1
        seq.sound(fx.CUE)
    else:
        seq.stirring = not seq.stirring
        seq.sound(fx.STIR if seq.stirring else fx.STILL)
    seq.set_beat()


def end_on_time(seq):
    """The step ends with its time."""
    seq.end_step(records.TIME)


def end_by_pedal(seq):
    """The sheet is in the next tray."""
    seq.end_step(records.PEDAL)


def end_early(seq):
    """The step is ended before its time."""
    seq.end_step(records.EARLY)


# -- light -----------------------------------------------------------------------------------------


def light(seq):
    """The lamp goes on for what is left, and one dead time."""
    run = seq.run
    run.gate_ms = run.left_ms + run.step()["dead_ms"]
    run.lit_left_ms = run.left_ms
    run.cap_ms = seq.cap_ms()
    seq.effects.push(fx.LAMP_ON, run.cap_ms)


def light_focus(seq):
    """The set-up light goes on, under its own cap."""
    seq.run.gate_ms = seq.run.cap_ms = FOCUS_CAP_MS
    seq.effects.push(fx.LAMP_ON, FOCUS_CAP_MS)


def stop_lamp(seq):
    """The press ends the light; the gate's report follows."""
    seq.effects.push(fx.LAMP_OFF)


def count_second(seq):
    """A tick each second of light."""
    seq.beat_ms += 1000
    seq.sound(fx.SECOND)


def note_whole(seq):
    """A light was given whole."""
    gave(seq, records.WHOLE)
    seq.sound(fx.DONE)


def note_short(seq):
    """A light ended short of the plan by less than the relay can add: said, not given."""
    gave(seq, records.SHORT)
    seq.sound(fx.DONE)
    seq.say("SHORT")


def note_held(seq):
    """A light was stopped; the rest can be given."""
    gave(seq, records.HELD)
    seq.sound(fx.OFF)


def abandon(seq):
    """The rest of a light will not be given."""
    close_intent(seq, records.ABANDONED)
    seq.sound(fx.DONE)


def note_focus(seq):
    """The set-up light is off."""
    close_focus(seq)
    seq.sound(fx.OFF)


def leave_focus(seq):
    """The set-up light is put away, dark."""
    seq.run.gate_ms = 0
    close_focus(seq)
    seq.choice = 0


def gave(seq, how):
    """Answer the intent with what was given, unless it is answered."""
    run = seq.run
    run.answered = how
    seq.effects.note(records.GAVE, run.index + 1, run.sheet, run.gate_ms, run.light_ms, run.left_ms, how)
    is_open = run.intent_open
    _answer(seq)
    if is_open:
        run.tally.add(run.index + 1, run.light_ms, run.light_ms)
        _note_dose(seq)


def _note_dose(seq):
    # How a light was measured, once, and only where a sensor is fitted.
    run, dose = seq.run, seq.run.dose
    if not dose.is_untold or not run.gate_ms:
        return
    dose.is_untold = False
    had_ms = dose.had_ms()
    had_ms = run.light_ms if had_ms == NEVER_MS else had_ms
    step = run.index + 1
    seq.effects.record(records.DOSE, step, run.sheet, had_ms, dose.least, dose.mean(), dose.how, dose.most)
    if dose.how != COUNTED:
        seq.say(_BY_TIME)


def close_intent(seq, how):
    """Every intent is answered by one record, also when nothing was given."""
    if seq.run.intent_open:
        seq.run.gate_ms = seq.run.light_ms = 0
        gave(seq, how)


def close_focus(seq):
    """Answer the intent of the set-up light, unless it is answered."""
    seq.effects.note(records.FOCUS, 0, 0, seq.run.gate_ms)
    _answer(seq)


def _answer(seq):
    # In one step, so that no error can come between: an intent is answered once.
    if seq.run.intent_open:
        seq.run.intent_open, seq.effects.count = False, seq.effects.count + 1


# -- after a cut ------------------------------------------------------------------------------------


def choose_rest(seq):
    """So much of the light that was cut off is still to be given; the pedal lights it afterwards."""
    seq.run.settle(seq.rest_entry()[1])
    seq.sound(fx.READY)


def pass_light(seq):
    """No more of the light that was cut off is given."""
    seq.effects.record(records.MOVE, seq.run.index + 2, seq.run.sheet)
    seq.sound(fx.DONE)


# -- faults ----------------------------------------------------------------------------------------


def break_off(seq):
    """Dark at once; what was under way is kept for afterwards."""
    # What was abandoned stays so, also when this came before the next step was shown.
    is_abandoned = seq.state == st.HELD and not seq.run.intent_open and seq.run.answered == records.ABANDONED
    seq.origin = st.WAIT_NEXT if is_abandoned else seq.state
    seq.white_before = seq.white
    add_fault(seq)
    seq.sound(fx.FAULT)


def lose_gate(seq):
    """The gate did not report its end: what it gave is not known."""
    seq.arg = st.LOST_GATE
    break_off(seq)


def add_fault(seq):
    """Another fault on top: the newest is shown."""
    seq.fault_code = seq.arg
    seq.effects.push(fx.LAMP_OFF)
    seq.effects.record(records.FAULT, seq.run.index + 1, seq.run.sheet, seq.arg)


def note_broken(seq):
    """What a light had given when the fault broke it off; the rest can be given afterwards."""
    gave(seq, records.BROKEN)
    seq.origin = st.HELD


def skip_rest(seq):
    """A light was broken off with nothing left to give."""
    gave(seq, records.SHORT)
    seq.origin = st.WAIT_NEXT


def note_focus_broken(seq):
    """The fault broke off the set-up light."""
    close_focus(seq)
    seq.origin = st.IDLE


def acknowledge(seq):
    """A person at the controller has seen it."""
    seq.effects.record(records.CLEARED, seq.run.index + 1, seq.run.sheet, seq.fault_code)
    seq.fault_code = st.NO_FAULT
    seq.sound(fx.READY)


def acknowledge_lost(seq):
    """Seen; the light that never reported counts as given whole, for too much light kills the sheet."""
    seq.run.book_light(seq.run.gate_ms)
    gave(seq, records.BROKEN)
    acknowledge(seq)


def acknowledge_focus(seq):
    """Seen; the set-up light never reported."""
    close_focus(seq)
    acknowledge(seq)
