"""What the display says in each state: text, big or small, brightness, and until when it holds.

Pure: a look at the sequencer and the time. Ready: which tray and tongs, or the light's seconds, stop and
height in turn. Bath: its name for three seconds, then the time left, in the last fifteen seconds the next
tray and tongs between. Lit: what remains, dimmest. Everything can be read at two metres, in red.
"""

from footlight_core import const
from footlight_core import states as st
from footlight_core.program import DISPLAY_COLUMNS, shown_columns

PAGE_MS = const(1200)
_NAME_MS = const(3000)
_NEXT_MS = const(15_000)
_BLINK_MS = const(400)
_SECOND_MS = const(1000)
_TENTH_MS = const(100)

_DIMMEST = const(1)
_ARMED_WORDS = ("NO", "PAPER", "FOCUS")


def screen(seq, now_ms):
    """-> (text, big, brightness, until_ms): `until_ms` is when another look is wanted."""
    level = seq.ledger.brightness
    if seq.state == st.FAULT:
        # A fault is shown also where the display is dark by wish.
        return _blink(seq, now_ms, st.fault_word(seq.fault_code)) + (max(level, _DIMMEST), now_ms + _BLINK_MS)
    if seq.notice:
        return seq.notice, False, level, seq.notice_ms
    text, big, until_ms = _VIEWS[seq.state](seq, now_ms)
    dim = min(level, _DIMMEST) if seq.is_lit() else level
    return text, big, dim, until_ms


def clock(ms):
    """m:ss of a time, rounded up as a countdown is [ms]."""
    seconds = (ms + 999) // 1000
    return "%d:%02d" % (seconds // 60, seconds % 60)


def seconds(ms):
    """Seconds and tenths of a light."""
    return "%d.%d" % (ms // 1000, ms % 1000 // 100)


def bounds(least_ms, most_ms):
    """Light at least and at most, rounded outwards: they must hold what the sheet has had."""
    text = seconds(least_ms) + "-" + seconds(most_ms + 99)
    if shown_columns(text) <= DISPLAY_COLUMNS:
        return text
    return "%d-%d" % (least_ms // 1000, (most_ms + 999) // 1000)


def _beside(word, ms):
    # A word and seconds, as fine as the display has room for.
    text = seconds(ms)
    for joined in (word + " " + text, word + text):
        if shown_columns(joined) <= DISPLAY_COLUMNS:
            return joined
    return word + "%d" % (ms // 1000)


def _had(run):
    """What the sheet has had of the present light, in pages; none where it has had none."""
    step = run.index + 1
    most_ms = run.tally.most_ms(step)
    return ["HAD", bounds(run.tally.least_ms(step), most_ms)] if most_ms else []


def _blink(seq, now_ms, text):
    shown = (now_ms - seq.entered_ms) // _BLINK_MS % 4 != 3
    return (text if shown else "", False)


def _pages(seq, now_ms, pages):
    pages = [page for page in pages if page]
    page = (now_ms - seq.entered_ms) // PAGE_MS
    until_ms = seq.entered_ms + (page + 1) * PAGE_MS
    return pages[page % len(pages)], False, until_ms


def _time(text):
    # Five big figures fill the display; a longer time is shown small.
    return text, len(text) <= 5


def _tray(step):
    return (step.get("place", "") + " " + step.get("tongs", "")).strip()


def _hold(now_ms):
    return now_ms + 3_600_000


def _idle(seq, now_ms):
    entry = seq.idle_entry()
    return (entry if isinstance(entry, str) else entry[2]), False, _hold(now_ms)


def _pick(seq, now_ms):
    return "NR %d" % seq.picked_sheet(), False, _hold(now_ms)


def _ready(seq, now_ms):
    if seq.run.is_light():
        return _ready_light(seq, now_ms)
    step = seq.run.step()
    return _pages(seq, now_ms, _pencil(seq) + [step["show"], _tray(step)])


def _pencil(seq):
    first = seq.run.index == 0
    return ["PENCIL", "%d" % seq.run.sheet] if first else []


def _ready_light(seq, now_ms):
    if now_ms < seq.ready_ms:
        left_ms = seq.ready_ms - now_ms
        return "SET %d" % ((left_ms + 999) // 1000), False, now_ms + (left_ms - 1) % _SECOND_MS + 1
    step = seq.run.step()
    height = "%dMM" % step["height_mm"] if step["height_mm"] else ""
    lamp = seq.run.lamp()["name"]
    pages = [step["show"], seconds(seq.run.left_ms) + "S", lamp, step["lens"], step["stop"], height]
    return _pages(seq, now_ms, _pencil(seq) + _had(seq.run) + pages)


def _menu(seq, now_ms):
    return seq.menu_entry() + "?", False, _hold(now_ms)


def _bath(seq, now_ms):
    passed_ms = now_ms - seq.run.start_ms
    left_ms = seq.run.time_ms() - passed_ms
    if passed_ms < _NAME_MS and seq.cue_index == 0:
        return seq.run.step()["show"], False, seq.run.start_ms + _NAME_MS
    until_ms = now_ms + (left_ms - 1) % _SECOND_MS + 1
    cue = _cue(seq, passed_ms)
    if cue:
        return cue, False, until_ms
    following = _tray(seq.run.next_step())
    if left_ms <= _NEXT_MS and following and left_ms // _SECOND_MS % 3 == 0:
        return following, False, until_ms
    return _time(clock(left_ms)) + (until_ms,)


def _cue(seq, passed_ms):
    # What the last cue of a step by hand said, for as long as a name is shown.
    cues = seq.run.step().get("cues", ())
    if not cues or seq.cue_index == 0:
        return ""
    at_ms, text = cues[min(seq.cue_index, len(cues)) - 1]
    return text if passed_ms - at_ms < _NAME_MS else ""


def _lift(seq, now_ms):
    left_ms = max(0, seq.run.start_ms + seq.run.time_ms() - now_ms)
    return "LIFT %d" % ((left_ms + 999) // 1000), False, now_ms + (left_ms - 1) % _SECOND_MS + 1


def _over(seq, now_ms):
    over_ms = now_ms - seq.run.start_ms - seq.run.time_ms()
    text = "+" + clock(over_ms // 1000 * 1000)
    return _time(text) + (now_ms + _SECOND_MS - over_ms % _SECOND_MS,)


def _judged(seq, now_ms):
    step = seq.run.step()
    passed_ms = now_ms - seq.run.start_ms
    if passed_ms < _NAME_MS:
        return step["show"], False, seq.run.start_ms + _NAME_MS
    until_ms = now_ms + _SECOND_MS - passed_ms % _SECOND_MS
    return _time(clock(passed_ms // 1000 * 1000)) + (until_ms,)


def _paused(seq, now_ms):
    text, big = _blink(seq, now_ms, seq.run.step()["show"])
    return text, big, now_ms + _BLINK_MS


def _lit(seq, now_ms):
    run = seq.run
    # Of a counted light, the light that remains; nobody knows its seconds.
    left_ms = max(0, run.gate_ms - run.burnt_ms(now_ms - seq.lit_ms))
    return _time(seconds(left_ms)) + (now_ms + _TENTH_MS,)


def _held(seq, now_ms):
    return _beside("OFF", seq.run.left_ms), False, _hold(now_ms)


def _focus(seq, now_ms):
    return _pages(seq, now_ms, _ARMED_WORDS)


def _done(seq, now_ms):
    return _pages(seq, now_ms, ("DONE", "NR %d" % seq.run.sheet))


def _broken(seq, now_ms):
    run = seq.run
    where = "DONE" if run.is_over() else "STEP%d" % (run.index + 1)
    pages = ["CUT", where, run.step().get("show", "")]
    return _pages(seq, now_ms, pages + _had(run)[1:] + [clock(now_ms)])


def _doubt(seq, now_ms):
    word, left_ms = seq.rest_entry()
    return (_beside(word, left_ms) if left_ms else word), False, _hold(now_ms)


_VIEWS = {
    st.IDLE: _idle,
    st.PICK: _pick,
    st.READY: _ready,
    st.MENU: _menu,
    st.BATH: _bath,
    st.LIFT: _lift,
    st.OVER: _over,
    st.JUDGED: _judged,
    st.PAUSED: _paused,
    st.LIT: _lit,
    st.HELD: _held,
    st.FOCUS: _focus,
    st.FOCUS_LIT: _lit,
    st.DONE: _done,
    st.BROKEN: _broken,
    st.DOUBT: _doubt,
}
