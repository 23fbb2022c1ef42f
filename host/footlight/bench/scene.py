"""What can be seen and heard on the bench, gathered from its events as they happen.

The sheet is where the controller's own records say that it went: nobody tells the scene anything.
"""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from footlight.bench import events as ev
from footlight.bench.bench import Bench
from footlight.bench.events import Event
from footlight.bench.glyphs import read_text
from footlight.bench.room import Room, Tray
from footlight.bench.sounds import Ear

SHA_CHARS = 16  # of a program's hash, in a record
_SOUNDS_KEPT = 5

Record = dict[str, Any]


@dataclass(frozen=True)
class Known:
    """A sequence that the bench knows: its trays from left to right, the steps of its program."""

    trays: Sequence[Tray]
    steps: Sequence[Mapping[str, Any]]


_UNKNOWN = Known((), ())
_NOT_GIVEN = "none to draw: the bench was started without the file of this sequence"
_NO_TRAYS = "none: this sequence is dry"


@dataclass(frozen=True)
class Told:
    """One thing that happened, in words."""

    t_ms: int
    kind: str
    text: str


class Scene:
    """Listens to a bench. `known`: sequences by the first characters of their hash."""

    def __init__(self, bench: Bench, known: Mapping[str, Known]) -> None:
        self._bench = bench
        self._known = known
        self._sequence = next((one for one in known.values() if one.trays), _UNKNOWN)
        self._no_trays = _NOT_GIVEN
        self._ear = Ear()
        self._sounds: list[tuple[str, int]] = []
        self._lit_us = 0
        self._text = read_text(bench.screen_rows())
        self._sheet = self._place = self._record = ""
        self._under_lamp = False
        self.told = [Told(bench.now_ms, "display", self._text)]
        bench.listeners.append(self._hear)

    def take_told(self) -> list[Told]:
        """What happened since the last look."""
        with self._bench.lock:
            told, self.told = self.told, []
            self._bench.forget_past()
        return told

    def room(self) -> Room:
        """The room at this moment."""
        bench = self._bench
        with bench.lock:
            return Room(
                trays=self._sequence.trays,
                no_trays=self._no_trays,
                sheet=self._sheet,
                at_place=self._place,
                under_lamp=self._under_lamp,
                lamp=bench.lamp,
                white=bench.white,
                powered=bench.is_on,
                rows=bench.screen_rows(),
                brightness=bench.panel.intensity + 1,
                sounds=[f"{name} ×{count}" if count > 1 else name for name, count in self._sounds],
                last_record=self._record,
                clock=clock_text(bench.now_ms),
            )

    def tell_power(self) -> None:
        """The power has just been switched."""
        self.told.append(Told(self._bench.now_ms, "power", "on" if self._bench.is_on else "off"))
        self._text = ""

    # -- what is heard -----------------------------------------------------------------------------

    def _hear(self, event: Event) -> None:
        if event.kind == ev.TONE:
            self._hear_tone(event)
        elif event.kind == ev.FRAME:
            self._see_display(event)
        elif event.kind == ev.RECORD:
            self._read_record(event)
        elif event.kind == ev.GATE:
            self._see_lamp(event)
        elif event.kind == ev.WHITE:
            self._tell(event, "white", "permitted" if event.value else "locked")
        elif event.kind == ev.PEDAL:
            self._tell(event, "pedal", "down" if event.value else "up")
        elif event.kind in (ev.FELL, *ev.ENDS):
            self._tell(event, "firmware", f"{event.kind} {event.text}")

    def _hear_tone(self, event: Event) -> None:
        meaning = self._ear.hear(event.t_us, event.value)
        if meaning is None:
            return
        self._tell(event, "sound", meaning)
        count = 1
        if self._sounds and self._sounds[-1][0] == meaning:
            count += self._sounds.pop()[1]
        self._sounds = [*self._sounds[1 - _SOUNDS_KEPT :], (meaning, count)]

    def _see_display(self, event: Event) -> None:
        text = read_text(self._bench.screen_rows())
        if text != self._text:
            self._text = text
            self._tell(event, "display", text)

    def _see_lamp(self, event: Event) -> None:
        if event.value:
            self._lit_us = event.t_us
            self._tell(event, "lamp", "on")
        elif self._lit_us:
            self._tell(event, "lamp", f"off after {(event.t_us - self._lit_us) / 1_000_000:.3f} s")
            self._lit_us = 0

    def _read_record(self, event: Event) -> None:
        record = json.loads(event.text)
        self._move_sheet(record)
        self._record = self._in_words(record)
        self._tell(event, "record", self._record)

    # -- where the sheet is ------------------------------------------------------------------------

    def _move_sheet(self, record: Record) -> None:
        kind, step = record["k"], self._step(record)
        if kind == "arm":
            self._sequence = self._known.get(record["sha"], _UNKNOWN)
            self._no_trays = _NOT_GIVEN if self._sequence is _UNKNOWN else _NO_TRAYS
            self._sheet, self._place, self._under_lamp = str(record["sheet"]), "", False
        elif kind in ("begin", "intent") and record["step"]:
            self._sheet = str(record["sheet"])
            self._place = step.get("place", "")
            self._under_lamp = step.get("kind", "light" if kind == "intent" else "") == "light"
        elif kind == "step" and record["how"] != "aside" and not self._under_lamp:
            self._place = ""
        elif kind == "end":
            self._sheet = self._place = ""
            self._under_lamp = False

    def _step(self, record: Record) -> Mapping[str, Any]:
        number = record.get("step", 0)
        return self._sequence.steps[number - 1] if 0 < number <= len(self._sequence.steps) else {}

    def _in_words(self, record: Record) -> str:
        name = self._step(record).get("name", "")
        known = {"n", "t", "k", "step", "run", "start", "sha"}
        rest = [f"{key} {value}" for key, value in sorted(record.items()) if key not in known and value != ""]
        step = f"step {record['step']} {name}".strip() if record.get("step") else ""
        return f"#{record['n']} " + ", ".join(filter(None, [record["k"], step, *rest]))

    def _tell(self, event: Event, kind: str, text: str) -> None:
        self.told.append(Told(event.t_ms, kind, text))


def clock_text(t_ms: int) -> str:
    """Minutes and seconds of a time [ms]."""
    return f"{t_ms // 60_000}:{t_ms // 1000 % 60:02d}"
