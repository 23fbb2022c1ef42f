"""The conditions in the table: pure looks at the sequencer; none of them changes anything."""

from . import const
from . import states as st
from .run import FOCUS_CAP_MS, FOCUS_WINDOW_MS

_CALM_MS = const(500)


def always(seq):
    """No condition."""
    return True


def calm(seq):
    """Not the second tap of a double tap."""
    return seq.arg >= seq.entered_ms + _CALM_MS


def on_focus(seq):
    """Idle shows the set-up light, and nothing forbids it."""
    return seq.idle_entry() == st.FOCUS_ENTRY and seq.may_arm(None) == 0


def on_sequence(seq):
    """Idle shows a sequence."""
    return not isinstance(seq.idle_entry(), str)


def on_last(seq):
    """Idle offers the last sheet's number."""
    return seq.idle_entry() == st.LAST_ENTRY


def on_bright(seq):
    """Idle offers the brightness of the display."""
    return seq.idle_entry() == st.BRIGHT_ENTRY


def can_arm(seq):
    """The program is there and nothing forbids a run of it."""
    return bool(seq.run.program) and seq.may_arm(seq.run.program) == 0


def is_light(seq):
    """The present step is a light."""
    return seq.run.is_light()


def can_light(seq):
    """A light may start: no double tap, the sheet has settled, the lamp is not too hot."""
    return calm(seq) and is_light(seq) and seq.arg >= seq.ready_ms and seq.lamp_wait_ms() == 0


def can_focus(seq):
    """The set-up light may go on: no double tap, the lamp is not too hot."""
    return calm(seq) and seq.duty.wait_ms(seq.now_ms, FOCUS_CAP_MS, FOCUS_WINDOW_MS) == 0


def begins_aside(seq):
    """A step that runs beside the others."""
    return calm(seq) and seq.run.is_aside()


def begins_judged(seq):
    """A step that is judged by eye."""
    return calm(seq) and seq.run.kind().is_judged()


def begins_bath(seq):
    """A step with a time of its own."""
    return calm(seq) and seq.run.kind().state == st.BATH


def has_lift(seq):
    """The bath has a lift time."""
    return seq.run.step().get("lift_ms", 0) > 0


def next_is_auto(seq):
    """The next step begins by itself."""
    return seq.run.next_step()["auto"] == 1


def least_passed(seq):
    """The least time of a judged step has passed."""
    return calm(seq) and seq.now_ms - seq.run.start_ms >= seq.run.step().get("least_ms", 0)


def light_whole(seq):
    """All of the light was given."""
    return seq.run.left_ms == 0


def too_little_left(seq):
    """What is left is less than the relay can do, or a counted light has lasted as long as it may."""
    return seq.run.is_capped or seq.run.left_ms < seq.run.step()["least_ms"]


def is_over(seq):
    """All steps of the run that was cut off had ended."""
    return seq.run.is_over()


def is_spent(seq):
    """Nothing that the relay could give is left of the light that was cut off."""
    return can_arm(seq) and seq.run.is_spent()


def chose_none(seq):
    """No more light is chosen."""
    return seq.rest_entry()[0] == st.NONE


def chose_back(seq):
    """The menu shows 'back'."""
    return seq.menu_entry() == st.BACK


def chose_skip(seq):
    """The menu shows 'skip'."""
    return seq.menu_entry() == st.SKIP


def chose_again(seq):
    """The menu shows 'again'."""
    return seq.menu_entry() == st.AGAIN


def chose_leave(seq):
    """The menu shows 'leave'."""
    return seq.menu_entry() == st.LEAVE


def broke_last_light(seq):
    """The fault came in a light, and less is left of it than the relay can do."""
    return seq.origin == st.LIT and too_little_left(seq)


def broke_light(seq):
    """The fault came in a light of a run."""
    return seq.origin == st.LIT


def broke_focus(seq):
    """The fault came in the set-up light."""
    return seq.origin == st.FOCUS_LIT
