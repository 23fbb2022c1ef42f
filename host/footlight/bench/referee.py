"""The referee: what must hold at every event of a bench, whatever is done to it.

`watch(bench)` is all that a demo or a test needs; the first breach of an invariant I1 to I16 (docs/faults.md)
stops the run with its time and with what replays it. Nothing here looks into the firmware: the referee sees
contacts, outputs, durable records and the bytes of the cable, and keeps its own books (`Books`).
"""

import json
from bisect import bisect_right
from collections import deque
from typing import Any

from footlight.bench import events as ev
from footlight.bench.bench import Bench
from footlight.bench.books import Books
from footlight.bench.events import Event
from footlight.bench.foot import GESTURE_MS, Foot
from footlight.bench.overheard import Overheard
from footlight.errors import FootlightError
from footlight_core import program as programs
from footlight_core import run as runs

WINDOW_MS = 600_000
# The watchdog's time, the display's slowest refresh, and some.
SILENCE_MS = 6_000
_TRIAL_US = 20_000  # so long one leg of the coil may be tried alone, at the start or idle
_TRIALS = 3  # one leg, a level, the other leg: so often may a leg rise alone within a second
_EDGE_US = 20  # a tick of the gate is 10 us
# Records of a run, or of the set-up light, that is under way in this life; and of one that is over.
_UNDER_WAY, _OVER = ("arm", "begin", "intent", "move"), ("end", "focus")
_LEVELS = (ev.GATE, ev.PUMP, ev.WHITE, ev.KEYBOARD, ev.WATCHDOG)


class BreachError(FootlightError):
    """An invariant did not hold."""


class Referee:
    """Listens to a bench. `replay`: what repeats this run, such as its seed. `stops`: raise at a breach."""

    def __init__(self, bench: Bench, replay: str = "", stops: bool = True) -> None:
        self.broken: list[str] = []
        self._bench = bench
        self._replay = replay
        self._stops = stops
        self._heard = Overheard(bench)
        self._books = Books(self._heard, self._breach)
        self._foot = Foot()
        self._t_us = 0
        self._levels: dict[str, int] = {}
        self._exposures: deque[tuple[int, float]] = deque()  # (end [us], length [ms])
        self._risen_us = 0
        self._leg_us = -1  # since when a leg is tried alone
        self._tried_us: deque[int] = deque(maxlen=_TRIALS + 1)
        self._still_until_us = 0  # the processor stands still, in the middle of what it does
        self._life = 0
        self._new_life()
        for event in bench.events:
            self.hear(event)
        bench.listeners.append(self.hear)

    def hear(self, event: Event) -> None:
        """Judge one event. After a breach that stopped the run there is nothing more to judge."""
        if self._stops and self.broken:
            return
        if event.t_us > self._t_us:
            self._settle()
        self._t_us = event.t_us
        life = bisect_right(self._bench.starts_us, event.t_us)
        if life != self._life or not self._bench.is_on:
            # The record of the start says nothing of when: a worn flash refuses it, or takes it much later.
            self._life = life
            self._new_life()
        self._watch_silence()
        before = self._levels.get(event.kind, 0)
        if event.kind in _LEVELS:
            self._levels[event.kind] = event.value
        judge = _JUDGES.get(event.kind)
        if judge and not (event.kind == ev.GATE and event.value == before):
            judge(self, event)

    def finish(self) -> None:
        """Judge what only the end shows: a loop that has stood still and nobody noticed."""
        if self._stops and self.broken:
            return
        self._settle()
        self._t_us = max(self._t_us, self._bench.now_us)
        self._watch_silence()

    # -- lives of the controller -------------------------------------------------------------------

    def _new_life(self) -> None:
        self._levels |= {ev.KEYBOARD: 1, ev.WATCHDOG: 0}
        self._in_run = False
        self._foot.forget()
        self._frame_us = -1
        self._leg_us = -1
        self._tried_us.clear()

    def _ends(self, event: Event) -> None:
        if event.kind == ev.PROMPT and self._levels.get(ev.GATE):
            self._breach("I4", "the prompt is reached with the gate high")
        if event.kind == ev.PROMPT and self._levels.get(ev.WHITE):
            self._breach("I4", "the prompt is reached with white light permitted")
        if event.kind == ev.PROMPT and self._leg_us >= 0:
            self._breach("I4", "the prompt is reached with a leg of the coil on")
        self._levels[ev.WATCHDOG] = 0
        if event.kind == ev.RESET:
            # The chip's reset lets every pin fall.
            self._leg_us = -1
            for kind in (ev.GATE, ev.PUMP, ev.WHITE):
                if self._levels.get(kind):
                    self.hear(Event(event.t_us, kind, "0"))

    def _fell(self, event: Event) -> None:
        if self._levels.get(ev.GATE):
            self._breach("I4", "an exception has reached the prompt with the gate high")

    # -- the gate ----------------------------------------------------------------------------------

    def _gate(self, event: Event) -> None:
        if event.value:
            self._risen_us = event.t_us
            self._judge_permission(event)
            self._judge_foot(event)
            self._books.rises()
        else:
            self._falls(event)

    def _judge_permission(self, event: Event) -> None:
        if self._levels.get(ev.GATE) and (self._levels[ev.KEYBOARD] or not self._levels[ev.WATCHDOG]):
            self._breach("I1", "gate high with the keyboard interrupt on, or without the watchdog")

    def _judge_foot(self, event: Event) -> None:
        foot = self._foot
        if not foot.is_fresh(event.t_us) or not foot.is_up:
            by_message = event.t_us - self._heard.last_us() <= GESTURE_MS * 1000
            self._breach("I5" if by_message else "I2", "gate high and no foot was released shortly before")
        if foot.gestures < 2:
            self._breach("I12", "gate high without a fresh arming and a fresh press since the start")
        if foot.written_since:
            self._breach("I7", "the flash was written between the release and the light")
        self._use_press("lit the lamp")

    def _falls(self, event: Event) -> None:
        on_ms = (event.t_us - self._risen_us) / 1000
        planned_ms = self._books.planned_ms()
        if on_ms > min(self._longest_ms(), self._books.cap_ms(), programs.LIGHT_CAP_MS) + 1:
            self._breach("I3", f"{on_ms} ms of light; planned {planned_ms}, cap {self._books.cap_ms()}")
        if on_ms > planned_ms + 1:
            self._books.exceeds(on_ms)
        self._judge_window(event, on_ms)
        late = on_ms >= planned_ms - _EDGE_US / 1000
        self._books.falls(on_ms, late or self._foot.stops(event.t_us, _EDGE_US))

    def _longest_ms(self) -> float:
        return self._books.planned_ms() if self._books.is_focus() else self._books.longest_ms()

    def _judge_window(self, event: Event, on_ms: float) -> None:
        self._exposures.append((event.t_us, on_ms))
        while event.t_us - self._exposures[0][0] >= WINDOW_MS * 1000:
            self._exposures.popleft()
        used_ms = sum(length_ms for _, length_ms in self._exposures)
        most_ms = max(self._books.window_ms(), runs.FOCUS_WINDOW_MS if self._books.is_focus() else 0)
        if used_ms > most_ms + 1:
            self._breach("I3", f"{used_ms} ms of light in ten minutes; the lamp may have {most_ms}")

    # -- everything else ---------------------------------------------------------------------------

    def _pump(self, event: Event) -> None:
        if event.value and not self._levels.get(ev.GATE):
            self._breach("I4", "the pump runs with the gate low")

    def _leg(self, event: Event) -> None:
        if event.value and self._in_run:
            self._breach("I4", "a leg of the coil is tried in a run")
        if event.value:
            self._tried_us.append(event.t_us)
        if len(self._tried_us) > _TRIALS and event.t_us - self._tried_us[0] < 1_000_000:
            self._breach("I4", "a leg of the coil rises alone more often than a trial does")
        self._leg_us = event.t_us if event.value else -1

    def _write(self, event: Event) -> None:
        self._foot.written_since = True
        if event.kind == ev.FORMAT:
            self._books.format()
        if self._levels.get(ev.GATE):
            self._breach("I9", "the flash is written while the gate is high")

    def _frame(self, event: Event) -> None:
        self._frame_us = event.t_us

    def _pedal(self, event: Event) -> None:
        make, rest = event.text.split(" ")
        self._foot.move(event.t_us, make == "1", rest == "1")

    def _pause(self, event: Event) -> None:
        self._foot.stand_still(event.t_us, event.value)
        self._still_until_us = event.t_us + event.value

    def _record(self, event: Event) -> None:
        record = json.loads(event.text)
        if record["k"] == "cleared" and not self._foot.was_fresh(self._told_us(record)):
            self._breach("I13", "a fault was left and no foot was released shortly before")
        self._in_run = record["k"] in _UNDER_WAY or (self._in_run and record["k"] not in _OVER)
        self._books.write(record)
        if record["k"] == "begin" and self._books.wants_press(record):
            self._use_press(f"began step {record['step']}")

    def _told_us(self, record: dict[str, Any]) -> int:
        # When it was, by the controller: a full or worn flash may take the record itself much later.
        return min(self._t_us, self._bench.starts_us[self._life - 1] + record["t"] * 1000)

    def _use_press(self, what: str) -> None:
        self._foot.uses += 1
        if self._foot.uses > 1:
            self._breach("I11", f"one press {what}, and had started something before")

    def _watch_silence(self) -> None:
        is_watched = self._bench.is_on and self._levels[ev.WATCHDOG]
        if is_watched and 0 <= self._frame_us < self._t_us - SILENCE_MS * 1000:
            self._frame_us = -1
            self._breach("I15", f"the loop has shown nothing for {SILENCE_MS} ms and no watchdog bit")

    def _settle(self) -> None:
        """What must hold once everything of one moment has been done."""
        if self._levels.get(ev.PUMP, 0) != self._levels.get(ev.GATE, 0):
            self._breach("I4", "gate and pump differ")
        if 0 <= self._leg_us < self._t_us - _TRIAL_US:
            self._leg_us = -1
            self._breach("I4", "a leg of the coil stays on alone")
        if self._t_us < self._still_until_us:
            return  # the record of a step follows its white light, that of a dose its light
        self._books.close()
        is_answered = self._foot.gestures > 0
        reason = self._books.forbids_white(is_answered) if self._levels.get(ev.WHITE) else ""
        if reason:
            self._levels[ev.WHITE] = 0  # said once
            self._breach("I16", f"white light is permitted {reason}")

    def _breach(self, name: str, text: str) -> None:
        replay = f" (replay: {self._replay})" if self._replay else ""
        self.broken.append(f"{self._t_us // 1000} ms: {name}: {text}{replay}")
        if self._stops:
            raise BreachError(self.broken[-1])


def watch(bench: Bench, replay: str = "", stops: bool = True) -> Referee:
    """Have a bench judged from now on; what it has already done is judged at once.

    Raises BreachError, out of whatever lets time pass, at the first breach; with `stops` False it is
    only kept in `broken`.
    """
    return Referee(bench, replay, stops)


_JUDGES = {
    ev.GATE: Referee._gate,
    ev.PUMP: Referee._pump,
    ev.LEG: Referee._leg,
    ev.KEYBOARD: Referee._judge_permission,
    ev.WATCHDOG: Referee._judge_permission,
    ev.ERASE: Referee._write,
    ev.PROGRAM: Referee._write,
    ev.FORMAT: Referee._write,
    ev.RECORD: Referee._record,
    ev.FRAME: Referee._frame,
    ev.PEDAL: Referee._pedal,
    ev.PAUSE: Referee._pause,
    ev.FELL: Referee._fell,
} | dict.fromkeys(ev.ENDS, Referee._ends)
