"""Power cuts at rest, by the thousand: the real sequencer and the real start over a journal in memory.

A printer goes through a program; the power fails at any pause between two events, or between two records
of one event, once or several times; the run is gone into again and finished. The judge sees lamp, records
and the words of the display's choice, and adds up for itself what the sheet has had.
"""

import random
import sys
import types
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from footlight_core import effects as fx
from footlight_core import program as programs
from footlight_core import records
from footlight_core import states as st
from footlight_core.run import Ledger
from footlight_core.sensor import Sensor
from footlight_core.sequencer import Sequencer

if "machine" not in sys.modules:
    # The start knows the guard by its numbers only; no chip is touched.
    sys.modules["machine"] = types.ModuleType("machine")
    from controller import boot_run

    del sys.modules["machine"]
else:
    from controller import boot_run

SHA = "ab" * 32
LIGHT_MS, DEAD_MS = 5_000, 50
LAMP = {"name": "LAMP", "cap_ms": 60_000, "window_ms": 600_000}
KINDS: dict[str, dict[str, Any]] = {
    "bath": {"kind": "bath", "time_ms": 20_000, "lift_ms": 5_000},
    "plain bath": {"kind": "bath", "time_ms": 20_000},
    "auto bath": {"kind": "bath", "time_ms": 20_000, "auto": 1},
    "wash": {"kind": "bath", "time_ms": 20_000, "aside": 1},
    "hand": {"kind": "hand", "time_ms": 5_000, "cues": [[0, "SHAKE"]]},
    "judge": {"kind": "judge", "least_ms": 1_000, "most_ms": 60_000},
    "pause": {"kind": "pause"},
    "light": {"kind": "light", "time_ms": LIGHT_MS, "dead_ms": DEAD_MS, "least_ms": 100},
}
MOST_EVENTS = 120
Cuts = tuple[tuple[int, int], ...]


class RestError(AssertionError):
    """Something that must hold did not."""


def program(kinds: tuple[str, ...], sheets: int = 1) -> dict[str, Any]:
    """A program of these kinds of steps; the first waits for the pedal."""
    steps = [{"name": kind, "show": "STEP"} | KINDS[kind] for kind in kinds]
    steps[0].pop("auto", None)
    head = {"v": 1, "title": "REST", "name": "rest", "lamps": [LAMP], "steps": steps, "sheets": sheets}
    return programs.check(head)


class Memory:
    """Journal, store and shelf that outlive the power. `left`: writes until it fails, None = never."""

    def __init__(self, loaded: dict[str, Any]) -> None:
        self.loaded = loaded
        self.lines: list[dict[str, Any]] = []
        self.kept = dict(vars(Ledger()))
        self.found = self.ledger_found = self.sensor_found = 0
        self.sensor = Sensor()
        self.left: int | None = None

    def write(self) -> None:
        """One write; raises PowerError instead of the first that does not come to be."""
        if self.left == 0:
            raise PowerError
        self.left = None if self.left is None else self.left - 1

    def append(self, record: dict[str, Any], t_ms: int) -> None:
        """As the journal."""
        self.write()
        self.lines.append(record | {"n": self.next_number(), "t": t_ms})

    def next_number(self) -> int:
        """As the journal."""
        return len(self.lines) + 1

    def recent(self) -> Iterator[dict[str, Any]]:
        """As the journal."""
        return iter(list(self.lines))

    def ledger(self) -> Ledger:
        """As the store."""
        ledger = Ledger()
        vars(ledger).update(self.kept | {"waiting": list(self.kept["waiting"])})
        return ledger

    def keep(self, ledger: Ledger) -> None:
        """As the store."""
        self.write()
        self.kept = vars(ledger) | {"waiting": list(ledger.waiting)}

    def entries(self) -> tuple[tuple[int, str, str], ...]:
        """As the shelf."""
        return ((1, SHA, "REST"),)

    def load(self, slot: int, sha: str) -> dict[str, Any] | None:
        """As the shelf."""
        return self.loaded if sha == SHA else None


class PowerError(Exception):
    """The power is gone."""


class Woken:
    """The guard of a start after a power cut."""

    def last_reason(self) -> tuple[int, int]:
        """Power-up, and nothing noted."""
        return 0, 0


@dataclass
class Truth:
    """What really happened, by the judge's own count; places are (sheet, step) from 1."""

    given_ms: dict[tuple[int, int], int] = field(default_factory=dict)
    unsure: set[tuple[int, int]] = field(default_factory=set)  # places where the most was chosen in doubt
    ended: set[tuple[int, int]] = field(default_factory=set)  # whose end is durable
    answered: bool = True  # the last intent


class Life:
    """One printing of a program, over as many power cuts as it takes."""

    def __init__(self, kinds: tuple[str, ...], dice: random.Random, sheets: int = 1) -> None:
        self.memory = Memory(program(kinds, sheets))
        self.kinds, self.dice = kinds, dice
        self.truth = Truth()
        self.events = 0
        self.start()

    # -- the controller ----------------------------------------------------------------------------

    def start(self) -> None:
        """Power on."""
        self.now_ms = self.lit_ms = 0
        self.gate_ms = 0  # of the light that is under way
        self.seq = Sequencer(self.memory, lambda loaded: 0)
        told = len(self.memory.lines)
        boot_run.begin(self.seq, self.memory, self.memory, Woken(), 0, 10)
        for record in self.memory.lines[told:]:
            self.judge_record(record)
        self.apply()

    def cut(self) -> None:
        """Power off: a light under way has given what it has given."""
        self.end_light(self.now_ms + self.dice.randrange(self.gate_ms) if self.gate_ms else self.now_ms)
        self.seq.effects.clear()
        self.memory.left = None

    def apply(self) -> None:
        """Do what the sequencer wants, as the app does: in order, records written at once."""
        queue = self.seq.effects
        for index in range(queue.count):
            kind, value = queue.kinds[index], queue.values[index]
            if kind == fx.RECORD:
                record = records.from_note(value, queue.notes[index], self.seq.run)
                self.memory.append(record, self.now_ms)
                self.judge_record(record)
            elif kind == fx.KEEP:
                self.memory.keep(self.seq.ledger)
            elif kind == fx.LAMP_ON:
                self.gate_ms, self.lit_ms = value, self.now_ms
            elif kind == fx.LAMP_OFF and self.gate_ms:
                queue.clear()
                self.report(self.now_ms)
                return
        queue.clear()

    def event(self, event: str, after_ms: int = 900) -> None:
        """Time passes, timers speak, then one event of the foot."""
        self.pass_time(after_ms)
        self.seq.handle(event, self.now_ms - 100, self.now_ms)
        self.apply()

    def pass_time(self, span_ms: int) -> None:
        """Timers and the gate speak when they are due."""
        until_ms = self.now_ms + span_ms
        while True:
            due_ms = self.seq.due_ms()
            end_ms = self.lit_ms + self.gate_ms if self.gate_ms else until_ms + 1
            if min(end_ms, due_ms if due_ms >= 0 else until_ms + 1) > until_ms:
                break
            if due_ms < 0 or end_ms <= due_ms:
                self.report(end_ms)
                continue
            self.now_ms = due_ms
            if self.seq.tick(due_ms):
                self.apply()
        self.now_ms = until_ms

    def report(self, end_ms: int) -> None:
        """The gate has closed."""
        self.now_ms = end_ms
        gate_ms = self.end_light(end_ms)
        self.seq.handle(st.GATE, gate_ms, end_ms)
        self.apply()

    def end_light(self, end_ms: int) -> int:
        """The judge's count of what an exposure gave -> its gate time [ms]."""
        if not self.gate_ms:
            return 0
        gate_ms, self.gate_ms = min(self.gate_ms, end_ms - self.lit_ms), 0
        place = (self.seq.run.sheet, self.seq.run.index + 1)
        self.truth.given_ms[place] = self.truth.given_ms.get(place, 0) + max(0, gate_ms - DEAD_MS)
        if self.truth.given_ms[place] > LIGHT_MS and place not in self.truth.unsure:
            raise RestError(f"{self.truth.given_ms[place]} ms of {LIGHT_MS} ms at {place}")
        return gate_ms

    # -- the judge ---------------------------------------------------------------------------------

    def judge_record(self, record: dict[str, Any]) -> None:
        """Bounds hold the truth, a step that has ended is not begun again, numbers rise."""
        kind = record["k"]
        if kind not in ("begin", "intent", "cut", "step", "gave"):
            return
        place = (record["sheet"], record["step"])
        if kind == "cut":
            given_ms = self.truth.given_ms.get(place, 0)
            if not record["least_ms"] <= given_ms <= record["most_ms"]:
                raise RestError(f"{given_ms} ms at {place}, told as {record}")
        if kind in ("begin", "intent", "cut") and place in self.truth.ended:
            raise RestError(f"{record} after the end of {place} was durable")
        if kind == "step" or (kind == "gave" and record["how"] not in (records.HELD, records.BROKEN)):
            self.truth.ended.add(place)
        if kind == "intent":
            offered_ms = self.truth.given_ms.get(place, 0) + record["light_ms"]
            if offered_ms > LIGHT_MS and place not in self.truth.unsure:
                raise RestError(f"{record} offers {offered_ms} ms of {LIGHT_MS} in all")

    # -- the printer -------------------------------------------------------------------------------

    def step_on(self) -> bool:
        """The next thing that a printer does; False when the run has ended and is put away."""
        self.events += 1
        if self.events > MOST_EVENTS:
            raise RestError(f"no end after {MOST_EVENTS} events, in {self.seq.state}")
        state, step = self.seq.state, self.seq.run.step()
        if state == st.DONE:
            return False
        if state == st.LIT:
            self.lit()
        elif state in (st.BATH, st.LIFT, st.OVER):
            self.event(st.SHORT, step["time_ms"] + 300)
        elif state == st.HELD:
            self.event(self.dice.choice((st.SHORT, st.SHORT, st.LONG)), 2_000)
        elif state == st.DOUBT:
            self.choose()
        elif state in (st.IDLE, st.PICK, st.BROKEN):
            self.event(st.LONG, 2_000)
        elif state == st.READY and self.dice.random() < 0.1:
            self.skip()
        else:
            self.event(st.SHORT, 2_000)
        return True

    def lit(self) -> None:
        """To its end, or stopped on the way."""
        if self.dice.random() < 0.5:
            self.event(st.PRESS, self.dice.randrange(1, LIGHT_MS + 200))
        else:
            self.pass_time(LIGHT_MS + 1_000)

    def skip(self) -> None:
        """By the menu."""
        self.event(st.LONG, 2_000)
        for _ in range(2):
            self.event(st.SHORT)
        self.event(st.LONG, 2_000)

    def choose(self) -> None:
        """What a light in doubt still gets; who takes the most may give too much, and knows it."""
        for _ in range(self.dice.randrange(4)):
            self.event(st.SHORT)
        if self.seq.rest_entry()[0] == st.MAX:
            self.truth.unsure.add((self.seq.run.sheet, self.seq.run.index + 1))
        self.event(st.LONG, 2_000)


def carried_out(kinds: tuple[str, ...], seed: int, cuts: Cuts, sheets: int = 1) -> Life:
    """A whole run. cuts: after so many things that the printer did, and within so many writes more, the
    power fails; the next one counts from the start that follows.

    Raises RestError.
    """
    life = Life(kinds, random.Random(seed), sheets)
    for events, writes in cuts:
        try:
            for _ in range(events):
                if not life.step_on():
                    break
            if writes:
                life.memory.left = writes - 1
                life.step_on()
        except PowerError:
            pass
        life.cut()
        life.start()
        if life.seq.state not in (st.BROKEN, st.IDLE):
            raise RestError(f"after a start it stands in {life.seq.state}")
    while life.step_on():
        pass
    finish(life, sheets)
    return life


def finish(life: Life, sheets: int) -> None:
    """Each sheet's steps have ended, each once; numbers were given once; one end."""
    memory, steps = life.memory, len(life.kinds)
    armed = [record for record in memory.lines if record["k"] == "arm"]
    if len({record["sheet"] for record in armed}) != len(armed):
        raise RestError(f"a sheet's number was given twice: {armed}")
    first = armed[-1]["sheet"]
    missing = {
        (first + sheet, step + 1) for sheet in range(sheets) for step in range(steps)
    } - life.truth.ended
    # A light in doubt of which no more is given has no end of its own.
    cut = {(record["sheet"], record["step"]) for record in memory.lines if record["k"] == "cut"}
    if missing - cut:
        raise RestError(f"left out: {sorted(missing - cut)}")
    ends = [record["run"] for record in memory.lines if record["k"] == "end"]
    if ends.count(armed[-1]["run"]) != 1:
        raise RestError(f"runs ended: {ends}")
