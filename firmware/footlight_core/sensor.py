"""What is known of the light sensor: whether one is fitted, and what each warm lamp reads.

Readings are those of the chip's converter, 0 to 65535. A threshold between dark and lit is not a setting:
it follows from what was learnt.
"""

from . import const

MOST_LAMPS = 4
# 1.8 V of 3.3: a brighter lamp would leave no room above it for a bright day of the mains.
MOST_READING = 36_000
# What counts as lit until anything was learnt: half of the full reading.
_BURNS = const(32_768)
_LIT_SHARE = const(8)  # an eighth of a warm lamp's light is a lamp that burns

# Places in what was learnt of a lamp.
LEVEL = 0
DARK = 1
TAIL_MS = 3
POWER = 4
# By their names in the message, with their limits; the warm-up is kept for whoever asks.
LEARNT = (
    ("level", int, 0, MOST_READING),
    ("dark", int, 0, MOST_READING),
    ("warm_ms", int, 0, 3_600_000),
    ("tail_ms", int, 0, 2_000),
    ("power", int, 500, 2_000),
)


class Sensor:
    """`lamps`: name of a lamp -> level and dark reading, warm-up [ms], light after the gate's end [ms at that
    level], and the stops that paper sees for a stop of the sensor's, in thousandths."""

    def __init__(self):
        self.take(0, {})

    def take(self, fitted, lamps):
        """What was kept."""
        self.fitted = fitted
        self.lamps = lamps
        self._find_threshold()

    def lamp(self, name):
        """What was learnt of a lamp, or None."""
        return self.lamps.get(name) if self.fitted else None

    def learn(self, name, learnt):
        """From now on this lamp is known so; a level of 0 forgets it. Returns False where no more fit."""
        self.lamps.pop(name, None)
        if learnt[LEVEL]:
            if len(self.lamps) >= MOST_LAMPS:
                return False
            self.fitted = 1
            self.lamps[name] = list(learnt)
        self._find_threshold()
        return True

    def _find_threshold(self):
        # Now, for it is asked while the lamp is lit.
        self.threshold = _BURNS  # the least reading of a lamp that burns
        for learnt in self.lamps.values():
            lit = learnt[DARK] + (learnt[LEVEL] - learnt[DARK]) // _LIT_SHARE
            self.threshold = min(self.threshold, lit)
