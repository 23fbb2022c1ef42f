"""A polled reader of our own, the plainest that counts: what the simulated sensor lets anybody reach.

Trapezoids between looks that come every 20 to 42 ms, what the filter still owes, the end predicted from the
mean of the last few levels. It reads the bench's own lamp, without a bench.
"""

import importlib.util
import random
import sys
import types
from collections import deque

from footlight.bench.lamp import Fitted
from footlight.bench.process import BOX

_SUPPLY_V = 3.3
_LOOKS_MS = (20, 42)
_FILTER_US = 24_200  # 110 kOhm and 220 nF, as they are bought; what a part is off goes into the glow
_MEAN_OF = 4
_SETTLE_US, _LEARN_US = 1_000_000, 1_500_000


def _lamp_house() -> types.ModuleType:
    """The box's module, which imports its neighbours by bare names."""
    neighbours = {name: sys.modules.get(name) for name in ("machine", "world")}
    sys.modules |= {name: types.ModuleType(name) for name in neighbours}
    spec = importlib.util.spec_from_file_location("lamp_house", BOX / "lamp_house.py")
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    for name, before in neighbours.items():
        sys.modules.pop(name)
        if before:
            sys.modules[name] = before
    return module


lamp_house = _lamp_house()


class Reader:
    """Counts the light of one lamp house. Times in us."""

    def __init__(self, fitted: Fitted, seed: int) -> None:
        self._house = lamp_house.House(fitted["lamp"], fitted["sensor"], 0)
        self._chance = random.Random(seed)
        self._now_us = 0
        self.offset_v = self._mean_v(16)
        self.level_v = 1.0
        self.glow_us = 0.0

    def change(self, fitted: Fitted) -> None:
        """Another mains, another age."""
        before = self._house
        self._house = lamp_house.House(fitted["lamp"], fitted["sensor"], self._now_us)
        self._house.follow(before)

    def cool_down_until(self, at_us: int) -> None:
        """Until the next light, whose lamp is then cold."""
        self.rest(at_us - self._now_us)
        self._house.warm(0.0)

    def rest(self, span_us: int) -> None:
        """In the dark."""
        self._now_us += span_us
        self._house.run_until(self._now_us)

    def learn(self) -> None:
        """Level of the warm lamp, and what it still gives after the gate, as its share of a microsecond."""
        self._house.warm()
        self._house.turn(True, self._now_us)
        self.rest(_SETTLE_US)
        area = self._count(lambda area, _: False, _LEARN_US)
        self.level_v = area / _LEARN_US
        owed = _FILTER_US * self._volts()
        self._house.turn(False, self._now_us)
        after = self._count(lambda area, _: False, _LEARN_US)
        self.glow_us = (after - owed) / self.level_v

    def light(self, asked_us: int, cap_us: int) -> tuple[int, int]:
        """One light of so many reference microseconds, at most so long -> the gate's edges."""
        begin_us = self._now_us
        self._house.turn(True, begin_us)
        levels: deque[float] = deque(maxlen=_MEAN_OF)
        wanted = (asked_us - self.glow_us) * self.level_v
        ends_us = [begin_us + cap_us]

        def predicts(area: float, volts: float) -> bool:
            levels.append(volts)
            left_us = (wanted - area - _FILTER_US * volts) / max(0.05, sum(levels) / len(levels))
            ends_us[0] = min(self._now_us + max(0, int(left_us)), begin_us + cap_us)
            return ends_us[0] <= self._now_us + _LOOKS_MS[1] * 1000

        self._count(predicts, cap_us)
        self._now_us = ends_us[0]
        self._house.run_until(self._now_us)
        self._house.turn(False, self._now_us)
        return begin_us, self._now_us

    def _count(self, is_over, limit_us: int) -> float:
        end_us, area, before_v = self._now_us + limit_us, 0.0, self._volts()
        while self._now_us < end_us:
            span_us = min(1000 * self._chance.randint(*_LOOKS_MS), end_us - self._now_us)
            self.rest(span_us)
            volts = self._volts()
            area += (before_v + volts) / 2 * span_us
            before_v = volts
            if is_over(area, volts):
                break
        return area

    def _volts(self) -> float:
        return self._mean_v(4) - self.offset_v

    def _mean_v(self, looks: int) -> float:
        return sum(self._house.sensor.reading() for _ in range(looks)) / looks / 65_535 * _SUPPLY_V
