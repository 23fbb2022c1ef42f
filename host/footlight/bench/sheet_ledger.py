"""The sheet ledger: a second judge of a bench, beside the referee, that does not know the firmware.

It was written from the public pages alone (`docs/protocol.md`, `states.md`, `screens.md`, `controller.md`),
by somebody who has not read what it judges. It holds rules I17 and I18: for each light of each sheet it
counts what the lamp really gave, and lets nothing that display or journal say, offer or give go against that.
What it cannot see stands in `docs/faults.md`.
"""

import json
from collections import Counter
from collections.abc import Callable
from typing import Any

from footlight.bench import display_text as display
from footlight.bench import events as ev
from footlight.bench.bench import Bench
from footlight.bench.cable_programs import CablePrograms
from footlight.bench.events import Event
from footlight.bench.referee import BreachError
from footlight.bench.sheet_lights import SheetLights
from footlight.bench.sheet_numbers import SheetNumbers
from footlight.bench.sheet_progress import SheetProgress

# Between a foot and what follows from it lie the debouncing, a pause of the processor, a write to the flash.
FOLLOWS_US = 1_500_000
_LONG_US = 950_000
# A light's measure is written right behind its record; between them may lie an erase of the flash.
_MEASURE_US = 300_000
# A fault blinks: so long at most until its word has been seen.
EXPLAINED_US = 1_500_000

Record = dict[str, Any]


class SheetLedger:
    """Listens to a bench. Raises BreachError out of whatever let the time pass."""

    def __init__(self, bench: Bench, replay: str = "") -> None:
        self._bench = bench
        self._replay = replay
        self._now_us = bench.now_us
        self._life = bench.lives
        self.cable = CablePrograms(bench)
        self.numbers = SheetNumbers(self._breach)
        self.progress = SheetProgress(self._breach)
        self.lights = SheetLights(self._breach, self._suspect)
        self._suspicions: list[tuple[int, str, tuple[str, ...]]] = []
        self._words: set[str] = set()  # faults that the display has shown since the start
        self._lines: dict[int, str] = {}  # the journal as it became durable
        self._levels = {ev.GATE: 0, ev.PUMP: 0}
        self._lit_us: int | None = None
        self._down_us = self._up_us = -FOLLOWS_US
        self._chosen_us = self._up_us  # the release that chose last: it chooses once
        self._was_long = False
        self._text = self._data = ""
        self._text_us = 0  # since when it has been shown
        self._broken = False  # does the display show a run that was broken off?
        self._goes_round = False  # and page by page, since CUT was shown?
        self._sha = ""
        self._gave: Record | None = None  # a light's record, until it is known whether its measure follows
        self._gave_us = 0
        self._handlers: dict[str, Callable[[Event], None]] = {
            ev.FRAME: self._see,
            ev.RECORD: self._read,
            ev.GATE: self._switch,
            ev.PUMP: self._switch,
            ev.PEDAL: self._step,
            ev.FORMAT: self._format,
        }
        bench.listeners.append(self._hear)
        # Who comes later hears first what has been, unless a start in between would be missed.
        if bench.lives <= 1:
            for event in list(bench.events):
                self._hear(event)

    def finish(self) -> None:
        """The bench is done with: what is not explained by now is a breach."""
        self._close_light(None)
        self._settle(self._now_us + 2 * EXPLAINED_US)

    def hold(self, story: Record) -> None:
        """What `footlight sheet NUMBER --json` says of the light must hold what was really had."""
        least_ms, most_ms = Counter[int](), Counter[int]()
        for row in (row for run in story["runs"] for row in run["rows"] if row["light"]):
            least_ms[row["step"]] += row["least_ms"]
            most_ms[row["step"]] += row["most_ms"]
        self.lights.hold(story["sheet"], least_ms, most_ms)

    # -- what is heard -----------------------------------------------------------------------------

    def _hear(self, event: Event) -> None:
        self._now_us = event.t_us
        if self._gave and event.t_us > self._gave_us + _MEASURE_US:
            self._close_light(None)
        if self._life != self._bench.lives:
            self._close_light(None)
            self._start_anew()
        if self._suspicions:
            self._settle(event.t_us)
        handler = self._handlers.get(event.kind)
        if handler:
            handler(event)
        self.lights.may_count |= self.cable.has_learnt
        if self.cable.told:
            self._compare_told()

    def _start_anew(self) -> None:
        self._life = self._bench.lives
        self.progress.lose_power(self._now_us)
        self.lights.start_anew()
        self._words.clear()
        # A fault that would have explained it cannot be shown any more: nobody knows.
        self._suspicions.clear()
        self._text = self._data = ""
        self._broken = self._goes_round = False

    def _switch(self, event: Event) -> None:
        self._levels[event.kind] = event.value
        is_lit = all(self._levels.values())
        if is_lit and self._lit_us is None:
            self._lit_us = event.t_us
        elif not is_lit and self._lit_us is not None:
            span_us, self._lit_us = event.t_us - self._lit_us, None
            self.lights.shine(span_us)

    def _step(self, event: Event) -> None:
        if event.text == "0 1":
            self._was_long = event.t_us - self._down_us >= _LONG_US
            self._up_us = event.t_us
        elif self._up_us >= self._down_us:
            self._down_us = event.t_us

    def _format(self, event: Event) -> None:
        self.numbers.forget()
        self.lights.forget()
        self.progress = SheetProgress(self._breach)
        self._lines.clear()

    # -- the display -------------------------------------------------------------------------------

    def _see(self, event: Event) -> None:
        if event.text == self._data:
            return
        self._data = event.text
        text = display.frame_text(event.text)
        if text == self._text:
            return
        before, self._text = self._text, text
        self._notice_choice(before)
        self._text_us = event.t_us
        if text in display.FAULT_WORDS:
            self._show_fault(text)
        elif self._lit_us is None:
            self._show(before, text, event.t_us)

    def _show_fault(self, word: str) -> None:
        if word == "FRESH" and word not in self._words:
            self._format(Event(self._now_us, ev.FORMAT))
        self._words.add(word)
        self._goes_round = False
        self.lights.show_fault(word)
        self._suspicions = [one for one in self._suspicions if word not in one[2]]

    def _show(self, before: str, text: str, t_us: int) -> None:
        if text == "CUT":
            if self._goes_round:
                self.lights.come_round()
            self._broken = self._goes_round = True
        elif self._broken and self._was_long and t_us - self._up_us < FOLLOWS_US:
            self._broken = self._goes_round = False
        if self._broken:
            self._show_broken(text)
            return
        self.progress.show(text, t_us)
        number = display.number(text, "NR ")
        offered = display.offered_ms(text)
        if number is not None and self._opens_pick(before):
            self.numbers.show_first(number)
        elif before == "HAD":
            told = display.had_ms(text)
            if told:
                self.lights.show_bounds(*told)
        elif before == "PENCIL" and text.isdecimal():
            self.numbers.pencil(int(text))
        elif offered:
            self.lights.show_offer(*offered)

    def _show_broken(self, text: str) -> None:
        step, bounds = display.number(text, "STEP"), display.bounds_ms(text)
        if step is not None and not self._words & {"LOST", "NOTES"}:
            self.progress.show_cut(step)
        elif bounds:
            self.lights.show_bounds(*bounds)

    def _opens_pick(self, before: str) -> bool:
        # A title. A fault may come and go over a pick, and its word blinks.
        is_title = before not in (*display.FAULT_WORDS, "", "LAST", "DONE") and not before.startswith("NR ")
        return is_title and self._follows_long()

    # -- the foot ----------------------------------------------------------------------------------

    def _follows_long(self) -> bool:
        return self._was_long and self._now_us - self._up_us < FOLLOWS_US

    def _notice_choice(self, text: str) -> None:
        """The entry is left: chosen, if a release has come since it was shown, just now and not used yet."""
        is_new = max(self._chosen_us, self._text_us) < self._up_us
        is_recent = is_new and self._now_us - self._up_us < FOLLOWS_US
        if is_recent and text in display.TURNS_BACK and self._text not in _MENU:
            self._chosen_us = self._up_us
            self.lights.go_back(self.numbers.current)
            self.progress.go_back(self.numbers.current)
        elif is_recent and text.startswith("MAX ") and not self._text.startswith(_STILL_GIVEN):
            self.lights.choose_most()

    # -- the journal -------------------------------------------------------------------------------

    def _read(self, event: Event) -> None:
        record = json.loads(event.text)
        self._lines[record["n"]] = event.text
        if record["k"] != "dose":
            self._close_light(None)
        if self._text in display.TURNS_BACK or self._text.startswith("MAX "):
            self._text, text = "", self._text
            self._notice_choice(text)
            self._text = text
        reader = getattr(self, f"_read_{record['k']}", None)
        if reader:
            reader(record)

    def _read_arm(self, record: Record) -> None:
        number, self._sha = record["sheet"], record["sha"]
        self.numbers.arm(number, record["sheets"], display.number(self._text, "NR "))
        self.lights.begin_run(number)
        self.progress.go_back(number)
        self.progress.arm(self.cable.program(self._sha))

    def _read_intent(self, record: Record) -> None:
        plan_ms, dead_ms = None, record["gate_ms"] - record["light_ms"]
        if record["sheet"]:
            self.numbers.name(record["sheet"])
            step = self._program_step(record)
            if step:
                plan_ms, dead_ms = step.get("time_ms", 0), step.get("dead_ms", 0)
            self.progress.offer(record["sheet"], record["step"])
        self.lights.intend(record, plan_ms, dead_ms, self._life)

    def _program_step(self, record: Record) -> Record | None:
        program = self.cable.program(record["sha"])
        if not program:
            return None
        steps = program["steps"]
        step = steps[record["step"] - 1] if 0 < record["step"] <= len(steps) else {}
        if step.get("kind") != "light":
            self._breach("I17", f"light is offered for step {record['step']}, which is none")
        return step

    def _read_gave(self, record: Record) -> None:
        self._gave, self._gave_us = record, self._now_us
        if not self.lights.may_count:
            self._close_light(None)

    def _read_dose(self, record: Record) -> None:
        self.lights.may_count = True
        self._close_light(record)

    def _close_light(self, measure: Record | None) -> None:
        record, self._gave = self._gave, None
        if record is None:
            return
        if measure:
            self.lights.measure(record, measure)
        if self.lights.answer(record):
            self.progress.finish(record["sheet"], record["step"])

    def _read_focus(self, record: Record) -> None:
        self.lights.offer = None

    def _read_begin(self, record: Record) -> None:
        self.numbers.name(record["sheet"])
        self.progress.begin(record["sheet"], record["step"])

    def _read_step(self, record: Record) -> None:
        if record["how"] != "aside":
            self.progress.finish(record["sheet"], record["step"])

    def _read_move(self, record: Record) -> None:
        self.progress.move(record["sheet"], record["step"])

    def _read_end(self, record: Record) -> None:
        self.progress.end(record["run"])

    def _read_cut(self, record: Record) -> None:
        if not record["run"]:
            return  # the set-up light
        self.numbers.cut(record["sheet"])
        self.progress.come_back(record["run"], record["sheet"], record["step"])
        self.lights.come_back(record)

    def _compare_told(self) -> None:
        """What the link reads out of the journal is what became durable."""
        for record in self.cable.told:
            line = self._lines.get(record.get("n", 0))
            if line is not None and json.loads(line) != record:
                self._breach("I8", f"the link tells record {record['n']} otherwise than it was written")
        self.cable.told.clear()

    # -- breaches ----------------------------------------------------------------------------------

    def _suspect(self, what: str, words: tuple[str, ...]) -> None:
        if not self._words.intersection(words):
            self._suspicions.append((self._now_us + EXPLAINED_US, what, words))

    def _settle(self, now_us: int) -> None:
        for until_us, what, _ in self._suspicions:
            if now_us > until_us:
                self._suspicions.clear()
                self._breach("I17", what)

    def _breach(self, rule: str, what: str) -> None:
        at = f"{rule} at {self._now_us / 1e6:.3f} s, by the sheet ledger"
        raise BreachError(f"{at}: {what}; {self._replay}")


_STILL_GIVEN = ("MIN ", "NONE", "MAX ")
_MENU = display.TURNS_BACK | {"STAY?", "SKIP?"}


def watch(bench: Bench, replay: str = "") -> SheetLedger:
    """A ledger for this bench. `replay`: what brings the same about again."""
    return SheetLedger(bench, replay)
