"""Light counted: the sum against exact integrals, the predicted end, and what is not plausible.

Nothing here may grow beyond the chip's small integers: `Small` fails on the way where it does.
"""

import sys

from checking import check, finish

from footlight_core import dose as doses
from footlight_core.sensor import Sensor

LEVEL, DARK = 24_000, 80
LEARNT = [LEVEL + DARK, DARK, 0, 40, 1_000]


class Small(int):
    """An integer that the chip keeps without asking for memory; its results are of the same kind."""

    def __add__(self, other):
        return small(int(self) + int(other))

    def __sub__(self, other):
        return small(int(self) - int(other))

    def __rsub__(self, other):
        return small(int(other) - int(self))

    def __mul__(self, other):
        return small(int(self) * int(other))

    def __lshift__(self, other):
        return small(int(self) << int(other))

    def __floordiv__(self, other):
        return small(int(self) // int(other))

    def __rfloordiv__(self, other):
        return small(int(other) // int(self))

    def __mod__(self, other):
        return small(int(self) % int(other))

    def __rshift__(self, other):
        return small(int(self) >> int(other))

    __radd__ = __add__
    __rmul__ = __mul__


def small(value):
    """The same number, if the chip can hold it."""
    if sys.implementation.name == "micropython":
        return value  # its own int cannot be watched so
    if not -(1 << 30) <= value < 1 << 30:
        raise OverflowError(value)
    return Small(value)


def lit(light_ms, readings, learnt=LEARNT, gate_ms=None, step_ms=10, dark=DARK):
    """A light of these readings, one each `step_ms`, until its predicted end -> (Dose, ms of the gate)."""
    dose = doses.Dose()
    dose.arm(1, [small(value) for value in learnt] if learnt else None, small(dark))
    gate_ms = light_ms + 50 if gate_ms is None else gate_ms
    dose.begin(small(light_ms), small(gate_ms), small(doses.cap_ms(gate_ms)))
    t_ms = 0
    for reading in readings:
        if dose.end_ticks <= (t_ms + step_ms) * doses.TICKS_PER_MS:
            break
        t_ms += step_ms
        dose.see(small(reading), small(t_ms * doses.TICKS_PER_MS))
    end_ms = (dose.end_ticks + 50) // doses.TICKS_PER_MS
    dose.end(small(end_ms))
    return dose, end_ms


def noisy(level, count, first=0):
    """A level with the last bits that a converter has, seen through the filter from its rise on."""
    # exp(-10 / 24.2) = 0.6615
    behind = 1.0
    for number in range(count):
        behind *= 0.6615
        yield DARK + int(level * (1 - behind)) + (number * 7 + first) % 5


def chain(*parts):
    """One after the other."""
    for part in parts:
        for reading in part:
            yield reading


for light_ms in (300, 1_000, 10_000, 100_000):
    dose, end_ms = lit(light_ms, noisy(LEVEL, 20_000))
    off_ms = abs(end_ms - (light_ms - 40))
    is_right = off_ms <= max(2, light_ms // 10_000) and abs(dose.had_ms() - light_ms) <= 1
    check("%d ms of the learnt level" % light_ms, (dose.how, is_right), ("counted", True))

# A lamp a fifth too bright needs 1 / 1.2 of the time, one a tenth too dark 1 / 0.9; each less its tail.
for level, wanted_ms in ((LEVEL * 12 // 10, 8_333 - 40), (LEVEL * 9 // 10, 11_111 - 40)):
    dose, end_ms = lit(10_000, noisy(level, 2_000))
    check("level %d" % level, (abs(end_ms - wanted_ms) <= 6, dose.how), (True, "counted"))
    share = level * 1000 // LEVEL
    check("as told", [abs(seen - share) <= 8 for seen in (dose.least, dose.mean(), dose.most)], [True] * 3)

dose, end_ms = lit(10_000, noisy(LEVEL * 7 // 10, 2_000))
check("a third of a stop longer, and no more", (end_ms, dose.had_ms() < 9_000), (doses.cap_ms(10_050), True))

# A dip of a third of the light for a second in the middle.
dip = [DARK + LEVEL * 2 // 3 + number % 3 for number in range(100)]
dip = chain(noisy(LEVEL, 400), dip, [DARK + LEVEL + number % 5 for number in range(1_000)])
dose, end_ms = lit(10_000, dip)
check("a dip", (abs(end_ms - (10_000 - 40 + 333)) <= 15, abs(dose.had_ms() - 10_000) <= 1), (True, True))

# What paper sees of it: 0.9 of the light for a sensor that sees 1.25 times less of a change is 0.9 ** 1.25.
bent = LEARNT[:4] + [1_250]
dose, end_ms = lit(10_000, noisy(LEVEL * 9 // 10, 2_000), bent)
check("colour", abs(end_ms - (10_000 / 0.9**1.25 - 40)) < 20, True)

steady = [DARK + LEVEL] * 2_000
for name, readings, learnt, dark in (
    ("unlearnt", noisy(LEVEL, 2_000), None, DARK),
    ("bright", noisy(LEVEL, 2_000), LEARNT, 4_000),
    ("level", noisy(LEVEL * 4 // 10, 2_000), LEARNT, DARK),
    ("lost", noisy(60_000, 2_000), LEARNT, DARK),
    ("stuck", steady, LEARNT, DARK),
    ("lost", chain(noisy(LEVEL, 200), noisy(LEVEL // 3, 2_000)), LEARNT, DARK),
    ("saturated", chain(noisy(LEVEL, 200), [65_535] * 500), LEARNT, DARK),
):
    dose, end_ms = lit(5_000, readings, learnt, dark=dark)
    check("not plausible: " + name, (dose.how, end_ms <= 5_050), (name, True))

# Lost when more than planned has already passed: it ends at once.
dose, end_ms = lit(5_000, chain(noisy(LEVEL * 8 // 10, 520), noisy(LEVEL // 3, 2_000)))
check("lost beyond what was planned", (dose.how, end_ms <= 5_400), ("lost", True))

# At code 1536 the converter stands still, and a good sensor may with it.
dose, end_ms = lit(1_200, chain(noisy(1536 * 16 - DARK, 20), [1536 * 16] * 200))
check("where the converter is blind", dose.how, "counted")

dose, end_ms = lit(600, noisy(30, 200))
check("dark", (dose.how, end_ms), ("level", 650))

# Behind the gate's end: 500 ms of a level that sinks in a straight line to nothing, and the filter's debt.
dose, end_ms = lit(2_000, noisy(LEVEL, 1_000))
for t_ms in range(10, 1_100, 10):
    reading = DARK + max(0, LEVEL - LEVEL * t_ms // 500)
    dose.glow(small(reading), small((end_ms + t_ms) * doses.TICKS_PER_MS))
check("the tail is measured", (abs(dose.tail_ms - (250 - 24)) <= 3, dose.is_glowing()), (True, False))

known = Sensor()
check("nothing learnt", (known.lamp("HEAD"), known.threshold), (None, 32_768))
check("learnt", (known.learn("HEAD", LEARNT), known.lamp("HEAD"), known.threshold), (True, LEARNT, 3_080))
check("no more than fit", [known.learn("L%d" % n, LEARNT) for n in range(4)], [True, True, True, False])
check("forgotten", (known.learn("HEAD", [0] * 5), known.lamp("HEAD")), (True, None))
check("another lamp is another lamp", known.lamp("FLASH"), None)
known.fitted = 0
check("not fitted", known.lamp("L0"), None)
finish()
