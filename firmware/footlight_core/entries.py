"""Entering a state, and which state it is when that depends on the program."""

from . import actions, const, guards, records
from . import effects as fx
from . import states as st

MENU_MS = 5000
PICK_MS = 30_000
_FOCUS_MS = const(600_000)
_GATE_GRACE_MS = const(150)


def resolve(seq, target):
    """A target of the table -> a state."""
    if target == st.START_NEXT:
        return _arrive(seq, True)
    if target == st.WAIT_NEXT:
        return _arrive(seq, False)
    if target == st.WAIT_HERE:
        return _here(seq.run)
    if target == st.OPENED:
        return _opened(seq)
    if target == st.REARMED:
        return _armed(seq, seq.picked_sheet()) if guards.can_arm(seq) else _refused(seq)
    return target


def _here(run):
    if run.kind().state == st.PAUSED:
        return st.PAUSED
    return st.DOUBT if run.is_doubtful() else st.READY


def enter(seq, state):
    """Timers, records and permissions of the state just entered."""
    _ENTER[state](seq)


def _opened(seq):
    if not guards.can_arm(seq):
        return _refused(seq)
    if not seq.run.is_batch():
        return st.PICK
    return _armed(seq, seq.ledger.next_sheet)


def _armed(seq, sheet):
    actions.begin_run(seq, sheet)
    return resolve(seq, st.WAIT_HERE)


def _refused(seq):
    actions.say_why(seq)
    return st.IDLE


def _arrive(seq, started):
    # A step beside the others is begun and passed; so there may be several on the way.
    run = seq.run
    while run.has_next_step():
        run.go_to(run.index + 1)
        state = run.kind().state
        if state == st.PAUSED:
            return state
        if state == st.LIT or not (started or run.step()["auto"]):
            return st.READY
        if not run.is_aside():
            return state
        seq.start_aside()
        started = False
    return _end_sheet(seq)


def _end_sheet(seq):
    run = seq.run
    if not run.is_batch():
        return st.DONE
    seq.ledger.wait(run.sheet)
    seq.effects.push(fx.KEEP)
    if not run.has_next_sheet():
        return st.DONE
    run.go_to_sheet()
    seq.ledger.take(run.sheet)
    return resolve(seq, st.WAIT_HERE)


def _enter_idle(seq):
    seq.clear_timers()
    seq.run.forget()


def _enter_pick(seq):
    seq.clear_timers()
    seq.wait_again()
    seq.lock_white()


def _enter_ready(seq):
    seq.clear_timers()
    seq.set_white(False)
    seq.ready_ms = seq.now_ms
    if not seq.run.is_light():
        return
    settle_ms = seq.run.step()["settle_ms"]
    if settle_ms:
        seq.ready_ms = seq.phase_ms = seq.now_ms + settle_ms
    if not seq.run.intent_open:
        seq.run.begin_light()
        _open_intent(seq)


def _open_intent(seq):
    # Written on entering, before the pedal counts: no flash write lies between release and light.
    run = seq.run
    run.intent_open = True
    seq.effects.record(
        records.INTENT, run.index + 1, run.sheet, run.left_ms + run.step()["dead_ms"], run.left_ms
    )


def _enter_menu(seq):
    seq.clear_timers()
    seq.wait_again()


def _enter_bath(seq):
    seq.begin_step()
    seq.phase_ms = seq.now_ms + seq.run.time_ms()
    if guards.has_lift(seq):
        seq.phase_ms -= seq.run.step()["lift_ms"]
    seq.cue_index = 0
    seq.stirring = False
    seq.set_beat()
    if seq.beat_ms == seq.now_ms:
        actions.beat(seq)


def _enter_lift(seq):
    seq.beat_ms = st.NEVER_MS
    seq.stirring = False


def _enter_over(seq):
    seq.phase_ms = st.NEVER_MS


def _enter_judged(seq):
    seq.begin_step()
    seq.phase_ms = seq.now_ms + seq.run.time_ms()


def _enter_paused(seq):
    seq.clear_timers()
    seq.set_white(True)
    seq.run.start_ms = seq.now_ms
    seq.sound(fx.CUE)


def _enter_lit(seq):
    seq.lit_ms = seq.now_ms
    seq.phase_ms = seq.now_ms + seq.run.cap_ms + _GATE_GRACE_MS
    seq.beat_ms = seq.now_ms + 1000


def _enter_held(seq):
    seq.clear_timers()
    seq.ready_ms = seq.now_ms
    # A fault that was acknowledged leads back here with the intent still unanswered.
    if not seq.run.intent_open:
        _open_intent(seq)


def _enter_focus(seq):
    seq.clear_timers()
    seq.phase_ms = seq.now_ms + _FOCUS_MS
    seq.lock_white()
    seq.run.focus()
    seq.effects.record(records.INTENT, 0, 0, seq.run.gate_ms, seq.run.gate_ms)


def _enter_done(seq):
    seq.clear_timers()
    seq.end_run(records.WHOLE)
    seq.sound(fx.DONE)


def _enter_broken(seq):
    seq.clear_timers()
    seq.lock_white()


def _enter_doubt(seq):
    seq.choice = 0


def _enter_fault(seq):
    # The timers stay: the clocks of baths go on and speak when the fault is acknowledged.
    seq.lock_white()


_ENTER = {
    st.IDLE: _enter_idle,
    st.PICK: _enter_pick,
    st.READY: _enter_ready,
    st.MENU: _enter_menu,
    st.BATH: _enter_bath,
    st.LIFT: _enter_lift,
    st.OVER: _enter_over,
    st.JUDGED: _enter_judged,
    st.PAUSED: _enter_paused,
    st.LIT: _enter_lit,
    st.HELD: _enter_held,
    st.FOCUS: _enter_focus,
    st.FOCUS_LIT: _enter_lit,
    st.DONE: _enter_done,
    st.BROKEN: _enter_broken,
    st.DOUBT: _enter_doubt,
    st.FAULT: _enter_fault,
}
