"""Reading one run out of its records: which steps were done and how, and how much light each sheet had.

Pure: records in, a reading out. A better reading later needs nothing but the records, which are kept.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from footlight_core import records

Record = dict[str, Any]


@dataclass
class StepDone:
    """A bath or the like, once begun. `real_ms`: None when its end is not known [ms]."""

    step: int
    sheet: int
    first_number: int
    real_ms: int | None = None
    how: str | None = None


@dataclass
class Exposure:
    """One part of a light: lamp on, lamp off [ms]."""

    number: int
    gate_ms: int
    light_ms: int
    how: str


@dataclass
class Measure:
    """How a part of a light was measured: its dose [reference ms], the lamp's level in thousandths."""

    number: int
    gate_ms: int
    dose_ms: int
    least: int
    mean: int
    most: int
    how: str


@dataclass
class LightDone:
    """A light step, once begun, in one part or several [ms]."""

    step: int
    sheet: int
    first_number: int
    planned_ms: int | None = None
    gate_ms: int = 0
    least_ms: int = 0
    most_ms: int = 0
    left_ms: int | None = None
    how: str | None = None
    exposures: list[Exposure] = field(default_factory=list)
    measures: list[Measure] = field(default_factory=list)
    # Light of an intent that no record has answered yet.
    open_ms: int = 0


@dataclass
class Reading:
    """One run. `armed`: its record 'arm', None when that is damaged."""

    armed: Record | None = None
    ended: str | None = None
    steps: list[StepDone] = field(default_factory=list)
    lights: list[LightDone] = field(default_factory=list)

    def sheets(self) -> list[int]:
        """Every sheet that the run touched, in order."""
        touched = {done.sheet for done in [*self.steps, *self.lights]}
        if self.armed:
            touched.add(self.armed["sheet"])
        return sorted(touched)


def read_run(run_records: Iterable[Record]) -> Reading:
    """The records of one run, in order of number."""
    reader = _Reader()
    for record in run_records:
        read = _READERS.get(record["k"])
        if read:
            read(reader, record)
    return reader.reading


class _Reader:
    def __init__(self) -> None:
        self.reading = Reading()
        self.step: StepDone | None = None
        self.light: LightDone | None = None
        self.answered: LightDone | None = None  # the last light that a record answered
        self.has_moved = False

    def arm(self, record: Record) -> None:
        self.reading.armed = record

    def begin(self, record: Record) -> None:
        self.break_step()
        self.light = None
        self.step = StepDone(record["step"], record["sheet"], record["n"])
        self.reading.steps.append(self.step)

    def end_step(self, record: Record) -> None:
        done = self.step
        if done is None or (done.step, done.sheet) != (record["step"], record["sheet"]):
            # Skipped before it began, or its beginning is damaged.
            done = StepDone(record["step"], record["sheet"], record["n"])
            self.reading.steps.append(done)
        done.real_ms = 0 if record["how"] == records.SKIPPED else record["real_ms"]
        done.how = record["how"]
        self.step = None

    def intend(self, record: Record) -> None:
        self.break_step()
        light = self.light_of(record)
        if light.planned_ms is None:
            light.planned_ms = record["light_ms"]
        # Until it is answered nobody knows how it will end.
        light.open_ms, light.how = record["light_ms"], None
        light.most_ms += record["light_ms"]

    def gave(self, record: Record) -> None:
        light = self.light_of(record)
        light.most_ms += record["light_ms"] - light.open_ms
        light.open_ms = 0
        light.least_ms += record["light_ms"]
        light.gate_ms += record["gate_ms"]
        light.left_ms, light.how = record["left_ms"], record["how"]
        if record["gate_ms"]:
            part = Exposure(record["n"], record["gate_ms"], record["light_ms"], record["how"])
            light.exposures.append(part)
        self.answered = light
        if record["how"] not in (records.HELD, records.BROKEN):
            self.light = None

    def measure(self, record: Record) -> None:
        light, here = self.answered, (record["step"], record["sheet"])
        # The record of the light itself may be damaged: then nobody knows what was measured.
        if light is None or (light.step, light.sheet) != here or not light.exposures:
            return
        levels = (record["least"], record["mean"], record["most"])
        gate_ms = light.exposures[-1].gate_ms
        light.measures.append(Measure(record["n"], gate_ms, record["dose_ms"], *levels, record["how"]))
        self.answered = None

    def cut(self, record: Record) -> None:
        here = (record["step"], record["sheet"])
        if self.light is not None and (self.light.step, self.light.sheet) == here:
            # The controller has added up for itself what was given so far, over every time that it came here.
            before = self.before(self.light)
            self.light.least_ms = max(0, record["least_ms"] - sum(light.least_ms for light in before))
            self.light.most_ms = max(0, record["most_ms"] - sum(light.most_ms for light in before))
            self.light.open_ms, self.light.how = 0, records.BROKEN
        self.break_step()

    def before(self, light: LightDone) -> list[LightDone]:
        """The same light, given to the same sheet before a person went back or began again."""
        # Where no such choice is recorded the firmware was an older one, which left it out of the sum.
        here = (light.step, light.sheet)
        lights = self.reading.lights if self.has_moved else []
        return [other for other in lights if other is not light and (other.step, other.sheet) == here]

    def move(self, record: Record) -> None:
        self.break_step()
        self.light = None
        self.has_moved = True

    def end_run(self, record: Record) -> None:
        self.break_step()
        self.light = None
        self.reading.ended = record["how"]

    def light_of(self, record: Record) -> LightDone:
        here = (record["step"], record["sheet"])
        if self.light is None or (self.light.step, self.light.sheet) != here:
            self.light = LightDone(*here, first_number=record["n"])
            self.reading.lights.append(self.light)
        return self.light

    def break_step(self) -> None:
        # What was begun and is followed by something else without an end was cut off.
        if self.step is not None:
            self.step.how = records.BROKEN
        self.step = None


_READERS = {
    "arm": _Reader.arm,
    "begin": _Reader.begin,
    "step": _Reader.end_step,
    "intent": _Reader.intend,
    "gave": _Reader.gave,
    "dose": _Reader.measure,
    "cut": _Reader.cut,
    "end": _Reader.end_run,
    "move": _Reader.move,
}
