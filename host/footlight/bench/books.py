"""The referee's books: what the durable records say, against what the gate really did."""

from collections.abc import Callable
from typing import Any

from footlight.bench.overheard import Overheard
from footlight_core import dose, records
from footlight_core import program as programs
from footlight_core import states as st

Record = dict[str, Any]
_SLACK_MS = 1
_UNSEEN_MS = 1_200  # in a tenth of a second it is seen that a lamp stays dark, or when the processor goes on
_GOES_ON = (records.HELD, records.BROKEN)
# A counted light may last a third of a stop longer; what misses a hundredth, or 5 ms, of its light is whole.
_LONGER = 1.26
_WHOLE_MS, _WHOLE_SHARE = 5, 0.01
# Measures by which a light was counted at first; the others went by seconds from the beginning.
_COUNTED = (dose.COUNTED, dose.SATURATED, dose.STUCK, dose.LOST)


class Books:
    """Fed with every record and with each exposure; calls `breach` with a number and a sentence."""

    def __init__(self, heard: Overheard, breach: Callable[[str, str], None]) -> None:
        self._heard = heard
        self._breach = breach
        self._number = 0
        self._untold = False  # is there a record that nobody heard of?
        self._doubted = False  # may it have said something of the light in this step?
        self._formatted = False
        self._armed: Record = {}
        self._intent: Record | None = None
        self._pulse_ms: float | None = None  # the exposure under this intent, once it has ended
        self._pulse_light_ms = 0.0  # what it gave, if the lamp burnt
        self._owed: Record | None = None  # an intent that the last life left open
        self._place = (0, 0, 0)
        self._given_ms = 0.0  # light that this sheet has had in this step, by the gate
        self._rest: dict[tuple[int, int, int], int] = {}
        self._told_ms: dict[tuple[int, int, int], tuple[int, int]] = {}  # by the last cut in this place
        self._had_ms: dict[tuple[int, int, int], tuple[int, int]] = {}  # by the records, at least and at most
        self._before_ms = (0, 0)  # the same as it was when a person last chose to go back, or again
        self._unexplained = ""
        self._claims: list[tuple[str, str]] = []  # breaches, unless the light turns out to be counted
        self._excess = ""  # more seconds than planned: judged with the record of the light, if one comes
        self._answered: Record = {}
        self._has_counted = False
        self._fault = st.NO_FAULT
        self._faults: set[int] = set()  # all since the intent; one may hide another
        self._locked = True  # white light: no step of this run has begun in this life
        self._reached = 0  # the last step that has begun
        self._cut_in_pause = False

    # -- what the referee asks ---------------------------------------------------------------------

    def planned_ms(self) -> int:
        """The gate time that was intended [ms]."""
        return self._intent["gate_ms"] if self._intent else 0

    def longest_ms(self) -> float:
        """The longest gate time of a counted light under this intent [ms]."""
        return self._intent["light_ms"] * _LONGER + self._dead_ms() if self._intent else 0

    def exceeds(self, on_ms: float) -> None:
        """The gate was high for longer than intended: the light must have been counted."""
        text = f"{on_ms} ms of light, and it was not counted"
        if self._may_count():
            self._excess = text
        else:
            self._breach("I3", text)

    def cap_ms(self) -> int:
        """The longest that this lamp may burn [ms]."""
        lamp = self._lamp()
        return lamp["cap_ms"] if lamp else programs.LIGHT_CAP_MS

    def window_ms(self) -> int:
        """The most light in ten minutes [ms]."""
        lamp = self._lamp()
        return lamp["window_ms"] if lamp else 600_000

    def is_focus(self) -> bool:
        """Is it the set-up light?"""
        return self._intent is not None and self._intent["run"] == 0

    def wants_press(self, begin: Record) -> bool:
        """Is this the beginning of a step that only a press may begin?"""
        step = self._step(begin["step"])
        return step is not None and not step["auto"] and not step.get("aside")

    def forbids_white(self, is_answered: bool) -> str:
        """Why white light may not be permitted now, or "" if it may.

        is_answered: a foot has been on the pedal since the start, so that a run that was cut off may stand in
        a pause, of which no record tells.
        """
        if self._fault:
            return "in a fault"
        if self._locked and not (is_answered and self._cut_in_pause):
            return "and no step of this run has begun since the start"
        program = self._program()
        first = programs.white_from(program) + 1 if program else 0
        return f"before step {first}, which allows it" if self._reached < first else ""

    # -- the gate ----------------------------------------------------------------------------------

    def rises(self) -> None:
        """The gate has opened."""
        if self._intent is None:
            self._breach("I7", "gate high and no intent is durable")
        if self._pulse_ms is not None:
            self._breach("I2", "a second exposure under one intent")
        if self._fault:
            self._breach("I13", f"gate high in fault {self._fault}")

    def falls(self, on_ms: float, is_explained: bool) -> None:
        """The gate has closed after `on_ms`; explained by its own time or by the pedal."""
        self._pulse_ms = on_ms
        intent = self._intent or {"gate_ms": 0, "light_ms": 0}
        self._pulse_light_ms = max(0.0, on_ms - self._dead_ms())
        self._given_ms += self._pulse_light_ms
        self._unexplained = "" if is_explained else f"{on_ms} of {intent['gate_ms']} ms"

    # -- the records -------------------------------------------------------------------------------

    def close(self) -> None:
        """No more records come."""
        self._judge_claims()

    def format(self) -> None:
        """The flash is new."""
        self._formatted = True
        self._number = 0
        self._armed = {}

    def write(self, record: Record) -> None:
        """One durable record."""
        self._judge_number(record)
        if record["k"] not in ("dose", "fault", "gave"):
            self._judge_claims()
        judge = _RECORDS.get(record["k"])
        if judge:
            judge(self, record)

    def _judge_number(self, record: Record) -> None:
        # The last one before a power cut may be durable although nobody could tell of it any more.
        most = self._number + (2 if record["k"] == "boot" else 1)
        self._untold = self._number > 0 and record["n"] == self._number + 2
        if self._number and not self._number < record["n"] <= most:
            self._breach("I8", f"record {record['n']} after {self._number}")
        if not self._number and self._formatted and record["n"] > 2:
            self._breach("I8", f"the first record of a new flash is number {record['n']}")
        self._number = record["n"]
        if self._owed and record["k"] not in ("boot", "cut", "fault", "date"):
            owed, self._owed = self._owed, None
            self._breach("I8", f"intent {owed['n']} was cut off, and '{record['k']}' comes before its bounds")

    def _boot(self, record: Record) -> None:
        # A record that became durable as the power went, and was never told, may have answered it.
        self._owed = None if self._untold else self._intent or self._owed
        self._doubted = self._doubted or self._untold
        self._intent = None
        self._pulse_ms = None
        self._fault = st.NO_FAULT
        self._locked = True
        self._cut_in_pause = False
        self._unexplained = ""
        self._claims.clear()  # what the light was, nobody could tell any more
        self._excess = ""

    def _arm(self, record: Record) -> None:
        if self._armed and record["run"] <= self._armed["run"]:
            self._breach("I8", f"run {record['run']} after run {self._armed['run']}")
        self._armed = record
        self._reached = 0
        self._locked = False
        self._go_to(record | {"step": 1})
        if self._formatted and not self._heard.committed(record["sha"]):
            self._breach("I10", f"a run of {record['sha']}, which was never committed")

    def _begin(self, record: Record) -> None:
        self._go_to(record)
        self._locked = False
        self._reached = record["step"]

    def _moved(self, record: Record) -> None:
        self._go_to(record)
        self._given_ms = 0.0
        self._before_ms = self._had_ms.get(self._place, (0, 0))
        self._told_ms.clear()
        self._rest.clear()

    def _step_ended(self, record: Record) -> None:
        self._go_to(record)
        self._passed(record["step"])
        self._given_ms = 0.0

    def _passed(self, number: int) -> None:
        # A message after a step is reached when that step has ended.
        following = self._step(number + 1)
        self._reached = number + (following is not None and following["kind"] == programs.PAUSE)

    def _intend(self, record: Record) -> None:
        if self._intent:
            self._breach("I8", "a second intent, and the first was never answered")
        if record["run"]:
            self._go_to(record)
            self._judge_plan(record)
        self._intent = record
        self._faults.clear()
        self._pulse_ms = None

    def _judge_plan(self, record: Record) -> None:
        if record["sha"] != self._armed.get("sha", record["sha"]):
            self._breach("I10", f"armed {self._armed['sha']}, intends {record['sha']}")
        rest_ms = self._rest.pop(self._place, None)
        told_ms = self._told_ms.pop(self._place, (0, 0))
        step = self._step(record["step"])
        dead_ms = step["dead_ms"] if step else record["gate_ms"] - record["light_ms"]
        wanted_ms = {rest_ms} if rest_ms is not None else {record["light_ms"]}
        if rest_ms is None and step:
            # After a cut what is surely missing, or up to the whole, whichever the pedal chose.
            wanted_ms = {step["time_ms"] - had_ms for had_ms in told_ms}
        if record["light_ms"] not in wanted_ms or record["gate_ms"] != record["light_ms"] + dead_ms:
            self._breach("I14", f"{sorted(wanted_ms)} ms are to be given, {record['light_ms']} are intended")

    def _gave(self, record: Record) -> None:
        intent, self._intent = self._intent, None
        if intent is None:
            self._breach("I8", "an answer to no intent")
            return
        self._judge_gate_time(record)
        if self._excess:
            self._claim("I22", self._excess)
            self._excess = ""
        if record["light_ms"] != max(0, record["gate_ms"] - intent["gate_ms"] + intent["light_ms"]):
            told = f"{record['gate_ms']} ms of gate, {record['light_ms']} ms of light in the record"
            self._claim("I14", told)
        self._answered = record | {"planned_ms": intent["light_ms"]}
        if record["left_ms"] != max(0, intent["light_ms"] - record["light_ms"]):
            self._breach("I14", f"{record['left_ms']} ms left of {intent['light_ms']}")
        least_ms, most_ms = self._had_ms.get(self._place, (0, 0))
        self._had_ms[self._place] = (least_ms + record["light_ms"], most_ms + record["light_ms"])
        if record["how"] in _GOES_ON:
            self._rest[self._place] = record["left_ms"]
            return
        self._given_ms = 0.0
        if record["how"] == records.WHOLE:
            self._passed(record["step"])

    def _judge_gate_time(self, record: Record) -> None:
        pulse_ms, self._pulse_ms = self._pulse_ms or 0.0, None
        # A lamp that was seen not to burn has given nothing, whatever the gate did; one that went out has.
        was_dark = st.NO_LIGHT in self._faults and record["gate_ms"] == 0 and pulse_ms < _UNSEEN_MS
        if was_dark:
            self._given_ms -= self._pulse_light_ms
        # One that did not report its end counts as given whole.
        is_lost = st.LOST_GATE in self._faults and record["gate_ms"] >= pulse_ms
        if not (was_dark or is_lost) and abs(record["gate_ms"] - pulse_ms) > _SLACK_MS:
            self._breach("I14", f"{record['gate_ms']} ms in the record, {pulse_ms} by the gate")
        if self._unexplained and not self._fault:
            self._claim("I6", f"a light ended after {self._unexplained}: no foot, no fault")
        self._unexplained = ""

    def _measured(self, record: Record) -> None:
        """How the light that was just answered was measured: a counted one is no breach of the seconds."""
        told, self._answered = self._answered, {}
        if not told or (record["step"], record["sheet"]) != (told["step"], told["sheet"]):
            self._breach("I14", "a dose of no light")
            return
        if record["how"] in _COUNTED:
            self._claims.clear()
            self._has_counted = True
            self._judge_dose(record["dose_ms"], told)
        self._judge_claims()

    def _judge_dose(self, dose_ms: int, told: Record) -> None:
        planned_ms = told["planned_ms"]
        is_whole = abs(planned_ms - dose_ms) <= max(_WHOLE_MS, planned_ms * _WHOLE_SHARE)
        if told["light_ms"] != (planned_ms if is_whole else dose_ms):
            self._breach("I14", f"{dose_ms} ms counted of {planned_ms}, {told['light_ms']} ms in the record")
        if told["how"] in _GOES_ON:
            # The next part is held against what is left by the count, not by the seconds.
            self._given_ms += told["light_ms"] - self._pulse_light_ms

    def _may_count(self) -> bool:
        return self._heard.has_learnt or self._has_counted

    def _claim(self, name: str, text: str) -> None:
        if self._may_count():
            self._claims.append((name, text))
        else:
            self._breach(name, text)

    def _judge_claims(self) -> None:
        claims, self._claims = self._claims, []
        for name, text in claims:
            self._breach(name, text)

    def _dead_ms(self) -> int:
        return self._intent["gate_ms"] - self._intent["light_ms"] if self._intent else 0

    def _cut(self, record: Record) -> None:
        owed, self._owed = self._owed, None
        self._rest.clear()
        if not record["run"]:
            return
        in_place = (record["run"], record["step"], record["sheet"]) == self._place
        self._go_to(record)
        step = self._step(record["step"])
        self._cut_in_pause = step is not None and step["kind"] == programs.PAUSE
        self._reached = record["step"] if self._cut_in_pause else 0
        told_ms = (record["least_ms"] - self._before_ms[0], record["most_ms"] - self._before_ms[1])
        self._told_ms[self._place] = told_ms
        self._had_ms[self._place] = (record["least_ms"], record["most_ms"])
        slack_ms = _SLACK_MS + 10 + (_LONGER - 1) * record["most_ms"] * self._may_count()
        is_within = told_ms[0] - slack_ms <= self._given_ms <= told_ms[1] + slack_ms
        if owed and owed["run"] and in_place and not (is_within or self._doubted):
            bounds = f"{record['least_ms']} to {record['most_ms']}"
            self._breach("I8", f"{self._given_ms} ms of light before a cut, told as {bounds}")

    def _focus(self, record: Record) -> None:
        self._intent = None
        self._judge_gate_time(record)

    def _faulted(self, record: Record) -> None:
        self._fault = record["code"]
        self._faults.add(record["code"])
        self._unexplained = ""

    def _cleared(self, record: Record) -> None:
        self._fault = st.NO_FAULT

    def _ended(self, record: Record) -> None:
        if self._intent:
            self._breach("I8", "a run has ended, and an intent of it was never answered")
        self._rest.clear()

    # ----------------------------------------------------------------------------------------------

    def _go_to(self, record: Record) -> None:
        place = (record["run"], record["step"], record["sheet"])
        if place != self._place:
            self._given_ms = 0.0
            self._doubted = False
            self._before_ms = self._had_ms.get(place, (0, 0))
        self._place = place

    def _program(self) -> dict[str, Any] | None:
        return self._heard.program(self._armed.get("sha", ""))

    def _step(self, number: int) -> dict[str, Any] | None:
        program = self._program()
        return program["steps"][number - 1] if program and number <= len(program["steps"]) else None

    def _lamp(self) -> dict[str, Any] | None:
        step = self._step(self._intent["step"]) if self._intent and self._intent["run"] else None
        program = self._program()
        return program["lamps"][step["lamp"]] if step and program and step["kind"] == programs.LIGHT else None


_RECORDS: dict[str, Callable[[Books, Record], None]] = {
    "boot": Books._boot,
    "arm": Books._arm,
    "begin": Books._begin,
    "step": Books._step_ended,
    "intent": Books._intend,
    "gave": Books._gave,
    "dose": Books._measured,
    "cut": Books._cut,
    "focus": Books._focus,
    "fault": Books._faulted,
    "cleared": Books._cleared,
    "end": Books._ended,
    "move": Books._moved,
}
