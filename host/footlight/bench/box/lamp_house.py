"""A lamp that burns, and the sensor that sees it: what the analog pin reads is worked out when it is read.

Tungsten: the filament gains mains squared over its resistance (as its temperature to the power of 1.2) and
loses the fourth power of its temperature. So temperature follows the mains with the power 2 / 5.2, lags as a
filament does, and swings with the halves of each cycle; nothing of that is put in by hand. What paper and
sensors see of a temperature is Planck's law through their sensitivities, as a polynomial of 1 / temperature
(`tests/witnesses/lamps` integrates it and holds the figures). LED: a driver's ripple, light that sinks as the
chip warms.

Keys are those of `footlight.bench.lamp`. Level 1 is the new, warm lamp at its nominal mains. Times in us.
`dose` tells what sensor, paper and eye have had.
"""

import math

import machine as _machine
import world as _worlds

# ln(level) = q (a + q (b + q c)) with q = nominal / present temperature - 1.
RESPONSES = {
    "paper": (-11.2389, 0.3085, -0.0412),
    "eye": (-8.8670, 0.2073, -0.0181),
    "silicon": (-6.1113, 0.6447, -0.2173),
    "blue": (-10.6124, 0.4087, -0.0433),
}
_COLD = 0.1  # of the working temperature
_DARK = 0.45  # below it nothing is left to see
_STEP_US = 1000
_RESISTANCE_POWER = 1.2
_SENSITIVITY = 5.2  # 4 + 1.2
_SUPPLY_V = 3.3
_CODES = 4096
_RISE_US = 1000  # of an LED's driver


class Mains:
    """Voltage over nominal, straight between knots of (us of the bench, voltage)."""

    def __init__(self, knots):
        self._knots = knots
        self._next = 0

    def at(self, t_us):
        """At this time; times never go back."""
        knots = self._knots
        while self._next < len(knots) and knots[self._next][0] <= t_us:
            self._next += 1
        if self._next == 0:
            return knots[0][1]
        begin_us, begin = knots[self._next - 1]
        if self._next == len(knots):
            return begin
        end_us, end = knots[self._next]
        return begin + (end - begin) * (t_us - begin_us) / (end_us - begin_us)


class Filament:
    """Its temperature, over that of a new lamp at nominal mains."""

    def __init__(self, lamp):
        heat = lamp["heat"]
        self._gain = heat**_SENSITIVITY
        self._capacity_us = _SENSITIVITY * lamp["lag_ms"] * 1000 * heat**3
        # The power swings twice a cycle.
        self._swing = 4e-6 * math.pi * lamp["mains_hz"]
        self.temperature = _COLD

    def is_dark(self):
        """Can nothing see it?"""
        return self.temperature < _DARK

    def cool(self, span_us):
        """Unfed, for so long: by the fourth power, solved."""
        cube = self.temperature**-3 + 3 * span_us / self._capacity_us
        self.temperature = max(_COLD, cube ** (-1 / 3))

    def step(self, voltage, begin_us, span_us):
        """By the rule of the midpoint -> temperature in the middle."""
        power = voltage * voltage * self._gain
        if self._swing:
            power *= 1 - math.cos(self._swing * (begin_us + 0.5 * span_us))
        start = self.temperature
        middle = max(_COLD, start + 0.5 * span_us * self._slope(start, power))
        self.temperature = max(_COLD, start + span_us * self._slope(middle, power))
        return middle

    def _slope(self, temperature, power):
        square = temperature * temperature
        return (power / temperature**_RESISTANCE_POWER - square * square) / self._capacity_us


def seen(response, temperature):
    """What something of this response sees of a filament at this temperature."""
    if temperature < _DARK:
        return 0.0
    a, b, c = response
    q = 1 / temperature - 1
    return math.exp(q * (a + q * (b + q * c)))


class Tungsten:
    """Light of a filament: what the sensor, paper and an eye see of it."""

    def __init__(self, lamp, sees):
        self._filament = Filament(lamp)
        self._sees = [RESPONSES[name] for name in (sees, "paper", "eye")]
        self.is_dark = self._filament.is_dark
        self.rest = self._filament.cool

    def step(self, voltage, begin_us, span_us):
        """Levels in the middle of a step."""
        temperature = self._filament.step(voltage, begin_us, span_us)
        return [seen(response, temperature) for response in self._sees]


class Led:
    """Light of a driver that keeps its current whatever the mains does, but for its ripple."""

    def __init__(self, lamp, _sees):
        self._ripple = lamp["ripple"]
        self._swing = 4e-6 * math.pi * lamp["mains_hz"]
        self._on = 0.0

    def is_dark(self):
        """Is it off?"""
        return self._on < 1e-6

    def rest(self, _span_us):
        """Off."""
        self._on = 0.0

    def step(self, voltage, begin_us, span_us):
        """Levels in the middle of a step: the same for whatever looks, for its colour stays."""
        wanted = 1.0 if voltage > 0.5 else 0.0
        self._on += (wanted - self._on) * (1 - math.exp(-span_us / _RISE_US))
        ripple = 1 + self._ripple * math.cos(self._swing * (begin_us + 0.5 * span_us))
        return [self._on * ripple] * 3


class House:
    """Relay, lamp and sensor, worked out up to a time."""

    def __init__(self, lamp, sensor, now_us):
        self._lamp = lamp
        self._mains = Mains(lamp["mains"])
        kind = Led if lamp["kind"] == "led" else Tungsten
        self._light = kind(lamp, sensor["sees"])
        self._is_fed = lamp["fault"] == "welded"
        self._turns = []  # (when the relay's contact moves, closed?)
        self._warmth = 0.0
        self._now_us = now_us
        self.dose_us = [0.0] * 3  # what sensor, paper and an eye have had, in us of level 1
        self.sensor = Sensor(sensor)

    def follow(self, other):
        """Take the state of the house that stood here: only what was changed is new."""
        if self._lamp["kind"] == other._lamp["kind"] and self._lamp["bulb"] == other._lamp["bulb"]:
            if self._lamp["kind"] == "led":
                self._light._on = other._light._on
            else:
                self._light._filament.temperature = other._light._filament.temperature
            self._warmth = other._warmth
        self._is_fed = self._is_fed or other._is_fed
        self._turns = other._turns
        self.dose_us = other.dose_us
        self.sensor.volts = other.sensor.volts

    def warm(self, warmth=1.0):
        """As after an hour of work, or of rest (0)."""
        self._warmth = warmth

    def turn(self, is_on, now_us):
        """The coil of the lamp's relay is drawn, or let go."""
        if self._lamp["fault"] == "welded":
            return
        delay_ms = self._lamp["close_ms"] if is_on else self._lamp["open_ms"]
        at_us = now_us + int(delay_ms * 1000)
        self._turns = [turn for turn in self._turns if turn[0] < at_us]
        self._turns.append((at_us, is_on))

    def run_until(self, t_us):
        """Let the lamp burn, or rest, up to this time."""
        while self._now_us < t_us:
            end_us = min(t_us, self._turns[0][0]) if self._turns else t_us
            if end_us > self._now_us:
                self._run(end_us)
            if self._turns and self._turns[0][0] <= self._now_us:
                self._is_fed = self._turns.pop(0)[1]

    def _run(self, end_us):
        is_lit = self._is_fed and self._lamp["fault"] != "dead"
        while self._now_us < end_us:
            if not is_lit and self._light.is_dark():
                self._rest(end_us - self._now_us)
                self._now_us = end_us
                return
            span_us = min(_STEP_US, end_us - self._now_us)
            self._step(self._mains.at(self._now_us + span_us // 2) if is_lit else 0.0, span_us)
            self._now_us += span_us

    def _step(self, voltage, span_us):
        lamp = self._lamp
        levels = self._light.step(voltage, self._now_us, span_us)
        is_on = 1.0 if voltage else 0.0
        self._warmth += (is_on - self._warmth) * span_us / (lamp["drift_s"] * 1_000_000)
        factor = lamp["brightness"] * (1 + lamp["drift"] * (self._warmth - 1))
        for place, level in enumerate(levels):
            self.dose_us[place] += level * factor * span_us
        self.sensor.see(levels[0] * factor, span_us)

    def _rest(self, span_us):
        self._light.rest(span_us)
        self._warmth *= math.exp(-span_us / (self._lamp["drift_s"] * 1_000_000))
        self.sensor.see(0.0, span_us)


class Sensor:
    """A photodiode's current in its load, through a filter of one pole, at the converter of twelve bits."""

    def __init__(self, sensor):
        self._sensor = sensor
        self._filter_us = sensor["filter_ms"] * 1000
        self._chance = sensor["seed"] or 1
        self.volts = self._steady(0.0)

    def _steady(self, level):
        sensor = self._sensor
        light_v = 0.0 if sensor["fault"] == "covered" else level * sensor["volts"] + sensor["safelight_v"]
        return min(sensor["limit_v"], light_v + sensor["offset_v"])

    def see(self, level, span_us):
        """This light, for so long."""
        self.volts += (self._steady(level) - self.volts) * (1 - math.exp(-span_us / self._filter_us))

    def reading(self):
        """As `read_u16` gives it."""
        code = int((self._at_pin() + self._noise()) / _SUPPLY_V * _CODES)
        code = self._skipped(max(0, min(_CODES - 1, code)))
        return code << 4 | code >> 8

    def _at_pin(self):
        fault = self._sensor["fault"]
        if fault == "stuck":
            return self._sensor["stuck_v"]
        # The load pulls an empty terminal down; the diode at a pulled-up line leaves this one empty too.
        return 0.0 if fault in ("unplugged", "elsewhere") else self.volts

    def _skipped(self, code):
        # Around these codes the converter cannot tell its neighbours apart.
        half = self._sensor["missing"] // 2
        mark = (code + half) // 512 * 512
        return mark if mark and mark - half <= code < mark + half else code

    def _noise(self):
        total = 0
        for _ in range(4):
            self._chance = (self._chance * 1103515245 + 12345) & 0x7FFFFFFF
            total += self._chance >> 15
        # Four even numbers of 16 bits: their sum's deviation is 65536 / sqrt(3).
        return (total / 65536 - 2) * 1.7320508 * self._sensor["noise_v"]


_house = [None]
_sense = [0]


def begin(pins):
    """Put the commands of this module in force. `pins`: numbers by name."""
    gate, pump = pins["LAMP_GATE"], pins["LAMP_PUMP"]

    def coil_moved(_):
        if _house[0]:
            is_on = bool(_machine.level_of(gate)) and _machine.is_pumped()
            _present().turn(is_on, _worlds.world.now_us)

    _house[0] = None
    _sense[0] = pins["SENSE"]
    _machine.listen(gate, coil_moved)
    _machine.listen(pump, coil_moved)
    _worlds.world.commands["dose"] = _tell_dose


def fit(lamp, sensor):
    """Lamp and sensor from now on; None = the pin reads what the driver says."""
    before, _house[0] = _present(), None
    _machine.models.pop(_sense[0], None)
    if lamp:
        _house[0] = House(lamp, sensor, _worlds.world.now_us)
        _machine.models[_sense[0]] = _reading
        if before:
            _house[0].follow(before)


def eye_us():
    """What an eye has had of the lamp until now, in us of level 1."""
    house = _present()
    return house.dose_us[2] if house else 0.0


def _present():
    if _house[0]:
        _house[0].run_until(_worlds.world.now_us)
    return _house[0]


def _reading():
    return _present().sensor.reading()


def _tell_dose(_words):
    house = _present()
    if house:
        _worlds.world.emit("dose", "%d %d %d" % tuple(house.dose_us))
