"""What each fault does: is the lamp dark, the white light locked, the pedal's stop there; if not, who tells.

The trial at the start is the firmware's own rule (`controller/legs.py`), with its levels read from its text,
so that the two cannot drift apart.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

from hardware.circuit import LOGIC, SUPPLY
from hardware.faults.model import (
    GATE,
    LEVEL,
    LIT,
    LOADS_OHM,
    PRESSED,
    PUMP,
    REST,
    SOUND,
    Fault,
    Model,
    Volts,
)

LEGS = Path(__file__).parents[2] / "firmware" / "controller" / "legs.py"
FULL_READING, FULL_V = 65_535, 3.3
# A 5 V relay holds down to a tenth of its voltage at least (common practice of relay data sheets).
HELD_MA = 7.0
WORKS_MA = 60.0
INPUT_LOW_V, INPUT_HIGH_V = 0.8, 2.0
# Beyond this F1 opens, or the supply gives up [A].
FUSE_A = 2.0


def trial_levels() -> dict[str, float]:
    """Return the voltages at a leg that the firmware compares with [V], by name."""
    text = LEGS.read_text(encoding="utf-8")
    found = dict(re.findall(r"^_(GROUND|LOW|HIGH|WHOLE|OVER) = const\(([\d_]+)\)", text, re.MULTILINE))
    return {name: int(count) / FULL_READING * FULL_V for name, count in found.items()}


@dataclass(frozen=True)
class Verdict:
    """What one fault does; each of the three says 'dark'-like words, or who tells of it.

    Attributes:
        lamp, white, stop: one sentence each.
        is_safe: nothing lights that was not asked, or it is told before the first sheet.
    """

    fault: str
    lamp: str
    white: str
    stop: str
    is_safe: bool


class Judge:
    """Solves one fault in every state and says what it does."""

    def __init__(self, model: Model) -> None:
        self._model = model
        self._levels = trial_levels()

    def verdict(self, fault: Fault) -> Verdict:
        """Judge one fault."""
        at = {state: self._model.volts(state, fault) for state in (REST, GATE, LEVEL, PUMP, LIT, PRESSED)}
        told = self._trial(at)
        lamp, lamp_safe = (
            self._lamp(at, told) if fault.opened != "K1" else ("dark for good; its relay is off", True)
        )
        white, white_safe = self._white(at, told)
        stop, stop_safe = self._stop(at)
        return Verdict(fault.name, lamp, white, stop, lamp_safe and white_safe and stop_safe)

    # -- lamp --------------------------------------------------------------------------------------

    def _lamp(self, at: dict, told: str) -> tuple[str, bool]:
        alone = [state for state in (REST, GATE, LEVEL, PUMP) if _coil_ma(at[state]) > HELD_MA]
        says = f"; {told}" if told else ""
        if REST in alone:
            return f"LIT AT REST{says}", False
        if alone:
            return f"dark, though {alone[0].name} would light it{says}", bool(told)
        if _coil_ma(at[LIT]) < WORKS_MA:
            return f"dark for good{says or '; no light when it is asked for'}", True
        return f"as asked{says}", True

    def _trial(self, at: dict) -> str:
        """The firmware's steps, in its order -> what it says, '' for nothing."""
        if _has_no_supply(at[REST]):
            return "5VOLT at the start, or the display dark"
        if at[REST]["WHITE_READ"] < INPUT_LOW_V:
            return "WHITE at the start"
        if not self._rests(at[REST]):
            return "LEG at the start"
        gate, pump = at[GATE], at[PUMP]
        good = (
            self._levels["OVER"] > gate["COIL_HIGH"] > self._levels["WHOLE"],
            self._levels["OVER"] > gate["COIL_LOW"] > self._levels["LOW"],
            self._rests(at[LEVEL]),
            pump["COIL_LOW"] < self._levels["GROUND"] and pump["COIL_HIGH"] < self._levels["HIGH"],
        )
        return "" if all(good) else "LEG at the start"

    def _rests(self, volts: Volts) -> bool:
        return volts["COIL_HIGH"] < self._levels["HIGH"] and volts["COIL_LOW"] > self._levels["LOW"]

    # -- white light and pedal -----------------------------------------------------------------------

    def _white(self, at: dict, told: str) -> tuple[str, bool]:
        amps = max((at[s][SUPPLY] - at[s]["WHITE_SW"]) / LOADS_OHM["white-module"] for s in (REST, LIT))
        if 1e3 * amps < HELD_MA:
            return "locked", True
        is_told = at[REST]["WHITE_READ"] < INPUT_LOW_V or at[LIT]["WHITE_READ"] < INPUT_LOW_V
        return ("closed: WHITE at once", True) if is_told else (f"CLOSED UNASKED; {told}", False)

    def _stop(self, at: dict) -> tuple[str, bool]:
        up, down = at[REST], at[PRESSED]
        if down["PEDAL_REST"] >= INPUT_HIGH_V:
            starts = up["PEDAL_REST"] < INPUT_LOW_V
            return ("stops" if starts else "reads as pressed: nothing starts", True)
        if down["PEDAL_MAKE"] < INPUT_LOW_V:
            return "hardware stop gone: WIRE at the press that would start it", True
        if up["PEDAL_REST"] >= INPUT_LOW_V:
            return "reads as undecided: nothing starts", True
        return "no press is seen: nothing starts", True


def _coil_ma(volts: Volts) -> float:
    return 1e3 * (volts["LAMP_HIGH"] - volts["LAMP_LOW"]) / LOADS_OHM["lamp-module"]


def _has_no_supply(volts: Volts) -> bool:
    drawn_a = (volts["+5V_IN"] - volts[SUPPLY]) / LOADS_OHM["ptc"]
    return volts[SUPPLY] < 4.0 or drawn_a > FUSE_A or volts[LOGIC] < 2.5


def works(model: Model) -> list[str]:
    """Return what the circuit without a fault does not do that it must; empty is good."""
    verdict = Judge(model).verdict(SOUND)
    wrong = []
    if verdict.lamp != "as asked":
        wrong.append(f"without a fault the lamp is: {verdict.lamp}")
    if verdict.white != "locked" or verdict.stop != "stops":
        wrong.append(f"without a fault the white light is {verdict.white}, the pedal {verdict.stop}")
    return wrong
