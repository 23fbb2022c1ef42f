"""Scripted feet: a printer who carries out a sequence on the bench, as well or as badly as told.

The feet know the program and listen to the controller's records; the pedal is all that they touch.
"""

import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from footlight.bench import events as ev
from footlight.bench.bench import Bench
from footlight_core.program import LIGHT, PAUSE, kind_of

CALM_MS = 900  # longer than the quiet that a start wants
LOOK_MS = 2500
BOOT_MS = 3000
_LONGEST_MS = 4 * 3_600_000

Step = dict[str, Any]
Look = Callable[[str], None]


class FeetError(RuntimeError):
    """The controller did not do what the feet wait for."""


@dataclass(frozen=True)
class Slip:
    """What does not go as planned in a step.

    late_ms: the sheet stays in the tray for so long after its time [ms]. stop_ms: the light is stopped after
    so long, and resumed [ms]. cut_ms: the power fails so long after the step began [ms]; off_ms: for so long.
    """

    late_ms: int = 0
    stop_ms: int = 0
    cut_ms: int = 0
    off_ms: int = 8000


class Feet:
    """One printer. `look` is called with a word at moments when the display is worth a look."""

    def __init__(self, bench: Bench, look: Look = lambda word: None) -> None:
        self._bench = bench
        self._look = look

    def arm(self, title_presses: int, is_batch: bool) -> None:
        """From idle: short presses to the title, a long one to arm; another one takes the sheet."""
        for _ in range(title_presses):
            self._bench.tap()
            self._bench.run_for(CALM_MS)
        self._look("a title")
        self._bench.hold()
        if not is_batch:
            self._bench.run_for(CALM_MS)
            self._look("which sheet?")
            self._bench.hold()
        self._bench.run_for(CALM_MS)
        self._look("pencil the number")

    def carry_out(self, program: dict[str, Any], slips: dict[int, Slip] | None = None) -> None:
        """Every step for every sheet. slips: by number of the step, for the first sheet."""
        for sheet in range(program["sheets"]):
            begun = False
            for number, step in enumerate(program["steps"], start=1):
                slip = (slips or {}).get(number, Slip()) if sheet == 0 else Slip()
                following = program["steps"][number] if number < len(program["steps"]) else None
                begun = self._step(step, following, slip, begun)

    def put_away(self) -> None:
        """From done back to idle."""
        self._bench.run_for(CALM_MS)
        self._look("done")
        self._bench.tap()
        self._bench.run_for(CALM_MS)

    def _step(self, step: Step, following: Step | None, slip: Slip, begun: bool) -> bool:
        """One step; returns whether the next one has been begun by the same press."""
        if step["kind"] == LIGHT:
            self._light(step, slip)
            return False
        if step["kind"] == PAUSE:
            self._bench.run_for(CALM_MS)
            self._look("a pause")
            self._bench.run_for(LOOK_MS)
            self._bench.tap()
            return False
        if not begun and step["auto"] != 1:
            self._begin()
        if step.get("aside"):
            return False
        if slip.cut_ms:
            self._power_cut(step, slip)
        else:
            self._stay(step, following, slip)
        by_itself = following is not None and following["auto"] == 1
        return by_itself or self._starts_at_once(following)

    def _starts_at_once(self, following: Step | None) -> bool:
        # One press for the transfer: it ends this bath and begins the next, unless that is a light.
        return following is not None and following["kind"] not in (LIGHT, PAUSE)

    def _begin(self) -> None:
        self._bench.run_for(CALM_MS)
        self._look("ready")
        self._bench.run_for(LOOK_MS)
        self._tap_for("begin")

    def _stay(self, step: Step, following: Step | None, slip: Slip) -> None:
        if following is not None and following["auto"] == 1:
            self._wait_for("begin")
            return
        self._bench.run_for(self._stay_ms(step) + slip.late_ms)
        self._look("over time" if slip.late_ms else "lift" if step.get("lift_ms") else "time")
        self._tap_for("step")

    def _stay_ms(self, step: Step) -> int:
        if kind_of(step).is_judged():
            return (step.get("least_ms", 0) + kind_of(step).time_ms(step)) // 2
        if step.get("lift_ms"):
            return step["time_ms"] - 1500
        return step["time_ms"] + 800

    def _light(self, step: Step, slip: Slip) -> None:
        self._bench.run_for(max(CALM_MS, step["settle_ms"] + 500))
        self._look("ready for the light")
        self._bench.run_for(LOOK_MS)
        self._bench.tap()
        if slip.stop_ms:
            self._stop_and_resume(slip)
        gave = self._wait_for("gave")
        if gave["left_ms"]:
            raise FeetError(f"a light of {step['time_ms']} ms ended with {gave['left_ms']} ms left")
        self._bench.run_for(CALM_MS)

    def _stop_and_resume(self, slip: Slip) -> None:
        self._bench.run_for(slip.stop_ms)
        self._look("lit")
        self._bench.tap()
        self._bench.run_for(LOOK_MS)
        self._look("stopped")
        self._bench.tap()

    def _power_cut(self, step: Step, slip: Slip) -> None:
        """The power fails; afterwards the step is gone into again, and ended when its time is full."""
        self._bench.run_for(slip.cut_ms)
        self._bench.cut_power()
        self._bench.run_for(slip.off_ms)
        self._bench.switch_on()
        self._bench.run_for(CALM_MS)
        self._look("after the power cut")
        self._bench.run_for(BOOT_MS - CALM_MS)
        self._bench.hold()
        self._bench.run_for(CALM_MS)
        self._tap_for("begin")
        self._bench.run_for(max(2000, step["time_ms"] - slip.cut_ms - slip.off_ms - BOOT_MS))
        self._bench.hold()
        # Ended early it does not begin the next step: the pedal does.
        self._bench.run_for(CALM_MS)
        self._tap_for("begin")

    def _tap_for(self, kind: str) -> None:
        """A tap, and the record that shows that it was understood."""
        with self._heard(kind) as found:
            self._bench.tap()
            self._bench.run_for(500)
        if not found:
            raise FeetError(f"no '{kind}' followed a tap at {self._bench.now_ms} ms of the bench")

    def _wait_for(self, kind: str) -> dict[str, Any]:
        event = self._bench.run_until_event(lambda event: _is_record(event, kind), _LONGEST_MS)
        if event is None:
            raise FeetError(f"no '{kind}' came")
        return json.loads(event.text)

    def _heard(self, kind: str) -> "_Ear":
        return _Ear(self._bench, kind)


class _Ear:
    """Notes whether a record of one kind becomes durable while the block runs."""

    def __init__(self, bench: Bench, kind: str) -> None:
        self._bench = bench
        self._kind = kind
        self._found: list[ev.Event] = []

    def __enter__(self) -> list[ev.Event]:
        self._bench.listeners.append(self._hear)
        return self._found

    def __exit__(self, *exc: object) -> None:
        self._bench.listeners.remove(self._hear)

    def _hear(self, event: ev.Event) -> None:
        if _is_record(event, self._kind):
            self._found.append(event)


def _is_record(event: ev.Event, kind: str) -> bool:
    return event.kind == ev.RECORD and json.loads(event.text)["k"] == kind
