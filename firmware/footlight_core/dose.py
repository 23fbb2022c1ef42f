"""Light counted: what an exposure has given by the sensor, and when it will have given what was asked.

The unit is time at the learnt level of the warm lamp: *reference* time, here in ticks of 10 us. The sum of
readings goes by trapezoids. The sensor's filter lags behind the light: what it still owes is its time
constant times its present level, exactly, whatever the light has done. What the lamp gives after its gate has
closed (the tail) was learnt, and is taken off beforehand.

Counting is for a sensor that is plausible. What is not goes by seconds from there on, and never for longer
than planned: `how` says why. No number here grows beyond the small integers of the chip (30 bits), for a
larger one would ask for memory while the lamp is lit.
"""

from . import const, sensor

TICKS_PER_MS = 100
NEVER_MS = -1

# How a light was measured: its dose counted, or timed by seconds, and why.
NOT_FITTED = ""
COUNTED = "counted"
UNLEARNT = "unlearnt"  # this lamp's level was never learnt
BRIGHT = "bright"  # the sensor saw light before the lamp was lit
LEVEL = "level"  # not the level of this lamp
SATURATED = "saturated"
STUCK = "stuck"
LOST = "lost"  # it was plausible, and is not any more

TAU_TICKS = const(2_420)  # (R19 + R20) x C9 of the sensor's filter
SATURATED_READING = const(57_000)
_JUDGED_TICKS = const(25_000)  # what does not rise any more by then must have its level
_RISES_SHARE = const(102)  # in hundredths of what it was some looks before: a filament that warms up
# Of the learnt level, in thousandths: an aged lamp at mains 10 % low gives 0.58, a new one 10 % high 1.6.
_LEAST_SHARE, _MOST_SHARE = const(500), const(1_750)
_DARK_SHARE = const(16)  # of the level the dark reading may be this part
_STILL_LOOKS = const(16)  # so often in a row nothing but a stuck sensor reads the very same
# Near multiples of 512 the converter cannot tell some codes apart: a good sensor may stand still there.
_BLIND_LOOKS = const(128)
_BLIND_PERIOD, _BLIND_CODES = const(512), const(8)
_HALF = const(4)
_KEPT = const(8)
_PIECE_TICKS = const(4_000)
_ANY_LEVEL = const(20_000)
_GLOW_TICKS = const(100_000)
_UNITY = const(1_000)
_LINEAR_SHARE = const(350)
_SAMPLE = const(500_000)
_MOST_OFF = const(32_000)  # its square is a small integer

# A counted light may last a third of a stop longer than planned, and no longer.
_CAP_NUMERATOR, _CAP_DENOMINATOR = const(1_259), const(1_000)


def cap_ms(light_ms):
    """The longest that a counted light may take [ms]."""
    return light_ms * _CAP_NUMERATOR // _CAP_DENOMINATOR


class Dose:
    """One for all lights: `arm`, `see` at every look, `end`. Nothing of these allocates."""

    def __init__(self):
        self.how = NOT_FITTED
        self.is_untold = False  # a light whose measure no record tells yet
        self.end_ticks = 0  # when the gate is to close, from its rise on
        self.least = self.most = 0  # level from when it was steady, in thousandths of the learnt one
        self.tail_ms = NEVER_MS  # measured behind the last light, at the level of its end
        self._recent = [0] * _KEPT
        self._learn(None)
        self._clear(0, 0, 0)

    def arm(self, is_fitted, learnt, dark):
        """The next light is of a lamp of which this was `learnt`, or None; `dark`: the reading now."""
        self._clear(dark, 0, 0)
        self._learn(learnt)
        if not is_fitted:
            self.how = NOT_FITTED
        elif learnt is None:
            self.how = UNLEARNT
        elif dark * _DARK_SHARE > self._level_whole:
            self.how = BRIGHT
        else:
            self.how = COUNTED

    def begin(self, light_ms, gate_ms, most_ms):
        """The gate rises for `light_ms` of reference time: `gate_ms` by seconds, `most_ms` if counted."""
        self._clear(self._dark, light_ms * TICKS_PER_MS, gate_ms * TICKS_PER_MS)
        self._most_ticks = most_ms * TICKS_PER_MS
        self.is_untold = self.how != NOT_FITTED

    def see(self, reading, ticks):
        """A reading, so long after the gate's rise."""
        level = self._corrected(max(0, reading - self._dark))
        self._sum(level, ticks)
        self._recent[self._looks % _KEPT] = level
        self._looks += 1
        if self.how != COUNTED:
            return
        self._still = self._still + 1 if reading == self._last_reading else 0
        self._last_reading = reading
        if reading >= SATURATED_READING:
            self._give_up(SATURATED, ticks)
        elif self._still >= (_BLIND_LOOKS if _is_blind(reading) else _STILL_LOOKS):
            self._give_up(STUCK, ticks)
        elif self._judge(ticks):
            self._predict(ticks)

    def end(self, gate_ms):
        """The gate was high for so long."""
        mean = self._mean(0)
        ticks = gate_ms * TICKS_PER_MS
        if self.how == COUNTED:
            # Since the last look it has gone on as it was; or it had ended a little before that look.
            since_look = _scaled(ticks - self._ticks, mean, self._level_whole)
            self._had_ticks = self._counted() + since_look + self._tail(mean)
        elif self._had_ticks >= 0:
            self._had_ticks += max(0, ticks - self._since_ticks)
        self._mark(mean, ticks)

    def glow(self, reading, ticks):
        """A reading after the gate's end, until there is no more: how much light came after it."""
        if self._ended_at < 0:
            return
        level = max(0, reading - self._dark)
        if ticks > self._ticks:
            self._sum(level, ticks)
        if ticks - self._ended_at >= _GLOW_TICKS:
            self._ended_at = -1
            if self._end_level:
                after = self._ticks_had - self._at_end - TAU_TICKS * self._end_level // self._level_whole
                self.tail_ms = max(0, _scaled(after, self._level_whole, self._end_level)) // TICKS_PER_MS

    def is_glowing(self):
        """Is the light behind a gate's end being measured?"""
        return self._ended_at >= 0

    def had_ms(self):
        """Reference time that the light has given [ms], or NEVER_MS where only seconds are known."""
        if self._had_ticks >= 0:
            return (self._had_ticks + TICKS_PER_MS // 2) // TICKS_PER_MS
        return self._counted() // TICKS_PER_MS if self.how == COUNTED else NEVER_MS

    def mean(self):
        """The mean level since it was steady, in thousandths of the learnt one; 0 if it never was."""
        had, span = self._ticks_had - self._steady_had, self._ticks - self._steady_at
        while span > _SAMPLE:
            had, span = had >> 1, span >> 1
        return had * _UNITY // span if self.least and span else 0

    # ----------------------------------------------------------------------------------------------

    def _learn(self, learnt):
        # Without anything learnt it still measures, in a unit of its own.
        self._level_whole = max(1, learnt[sensor.LEVEL] - learnt[sensor.DARK]) if learnt else _ANY_LEVEL
        self._tail_ticks = learnt[sensor.TAIL_MS] * TICKS_PER_MS if learnt else 0
        self._power = learnt[sensor.POWER] if learnt else _UNITY
        self._bound = self._level_whole * _LINEAR_SHARE // _UNITY
        low = self._level_whole - self._bound
        self._low_share = (self._bent(low) << 10) // max(1, low)

    def _clear(self, dark, light_ticks, gate_ticks):
        self._dark = dark
        self._light_ticks = light_ticks
        self._gate_ticks = self._most_ticks = self.end_ticks = gate_ticks
        self._ticks = self._level = self._ticks_had = self._rest = 0
        self._looks = self._still = 0
        self._last_reading = -1
        self._is_judged = self._rises = False
        self._steady_at = self._steady_had = 0
        self.least = self.most = 0
        self._had_ticks = -1  # known only at the end, or where counting was given up
        self._since_ticks = 0
        self._ended_at = -1
        self._at_end = self._end_level = 0

    def _sum(self, level, ticks):
        # In pieces, so that no product is larger than the chip's small integers.
        left = ticks - self._ticks
        whole = 2 * self._level_whole
        while left > 0:
            self._rest += (self._level + level) * min(left, _PIECE_TICKS)
            self._ticks_had += self._rest // whole
            self._rest %= whole
            left -= _PIECE_TICKS
        self._ticks, self._level = ticks, level

    def _counted(self):
        return self._ticks_had + TAU_TICKS * self._level // self._level_whole

    def _tail(self, level):
        return _scaled(self._tail_ticks, level, self._level_whole)

    def _mean(self, back):
        # Of the last looks, or of those `back` looks before them.
        count = max(0, min(self._looks - back, _HALF))
        total = 0
        for index in range(_HALF):
            if index < count:
                total += self._recent[(self._looks - 1 - back - index) % _KEPT]
        return total // count if count else 0

    def _judge(self, ticks):
        mean = self._mean(0)
        share = mean * _UNITY // self._level_whole
        self._rises = mean * 100 > self._mean(_HALF) * _RISES_SHARE
        is_plausible = _LEAST_SHARE <= share <= _MOST_SHARE
        if not is_plausible and (self._is_judged or (ticks >= _JUDGED_TICKS and not self._rises)):
            self._give_up(LOST if self._is_judged else LEVEL, ticks)
            return False
        self._is_judged = self._is_judged or (is_plausible and self._looks >= _HALF)
        if self._is_judged and not self._rises and not self.least:
            self._steady_at, self._steady_had = ticks, self._ticks_had
            self.least = self.most = share
        if self.least:
            self.least, self.most = min(self.least, share), max(self.most, share)
        return True

    def _predict(self, ticks):
        level = self._mean(0)
        if self._rises:
            # The filter and the mean lag as much behind as half of the looks that are kept.
            level += level - self._mean(_HALF)
        level = max(level, self._level_whole >> 2)
        left = max(0, self._light_ticks - self._counted() - self._tail(level))
        # Beyond what was planned only by a sensor that has been plausible: the processor may hang right now.
        most = self._most_ticks if self._is_judged else self._gate_ticks
        self.end_ticks = min(most, ticks + _scaled(left, self._level_whole, level))

    def _give_up(self, how, ticks):
        # By seconds from here on: what was counted stands if it was plausible until now, else nothing does.
        self.how = how
        self.end_ticks = self._gate_ticks
        if self._is_judged:
            self._had_ticks, self._since_ticks = self._counted(), ticks
            left = max(0, self._light_ticks - self._had_ticks)
            self.end_ticks = min(self._gate_ticks, ticks + left)

    def _mark(self, level, ticks):
        self._sum(level, max(ticks, self._ticks))
        self._ended_at, self._at_end, self._end_level = ticks, self._ticks_had, level

    def _corrected(self, level):
        if self._power == _UNITY:
            return level
        if level < self._level_whole - self._bound:
            return level * self._low_share >> 10
        return self._bent(level)

    def _bent(self, level):
        # (level / whole) ** power, to the second order about 1.
        off = min(level - self._level_whole, _MOST_OFF)
        second = self._power * (self._power - _UNITY) // (2 * _UNITY)
        square = off * off // self._level_whole
        return max(0, level + (off * (self._power - _UNITY) + square * second) // _UNITY)


def _is_blind(reading):
    """Is this where the converter takes several codes for one?"""
    code = reading >> 4
    return (code + _BLIND_CODES) % _BLIND_PERIOD <= 2 * _BLIND_CODES


def _scaled(ticks, numerator, denominator):
    """ticks * numerator / denominator, in small integers."""
    share = (numerator << 10) // max(1, denominator)
    return (ticks >> 10) * share + ((ticks & 1023) * share >> 10)
