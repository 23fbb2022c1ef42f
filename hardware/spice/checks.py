"""What the circuit must do, asked of the simulator: `python -m hardware.spice.checks` prints the table."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache

from hardware.spice.deck import Coil, Curves, Deck
from hardware.spice.lamp import (
    HEAVY_RELAY,
    ISOLATED_INPUT,
    PIN_LEAK_A,
    PIN_OHM,
    RELAY,
    RELAY_WITH_DIODE,
    STOP_S,
    SUPPLY_V,
    Drive,
    circuit,
    lamp,
)
from hardware.spice.models import BC327_V, CORNERS, FET_BREAKDOWN_V, HARD_ON, SLOW_OFF, TYPICAL, Corner


@dataclass(frozen=True)
class Result:
    """One line of the table: what was asked, what came out, and the bound it must keep."""

    name: str
    measured: float
    unit: str
    bound: str
    passed: bool

    def __str__(self) -> str:
        return (
            f"{self.name}: {self.measured:.3g} {self.unit} ({self.bound}) {'ok' if self.passed else 'FAILED'}"
        )


def at_most(name: str, measured: float, limit: float, unit: str) -> Result:
    """Make a result with an upper bound."""
    return Result(name, measured, unit, f"at most {limit:g}", measured <= limit)


def at_least(name: str, measured: float, limit: float, unit: str) -> Result:
    """Make a result with a lower bound."""
    return Result(name, measured, unit, f"at least {limit:g}", measured >= limit)


# --- the questions ----------------------------------------------------------------------------------------

DARK = (
    Drive("floating", "runs"),
    Drive("low", "runs"),
    Drive("high", "low"),
    Drive("high", "high"),
    Drive("high", "floating"),
    Drive("floating", "floating"),
    Drive("low", "runs", failed="Q2"),
    Drive("high", "low", failed="Q5"),
    *(Drive("low", "low", bridge_ohm=ohm) for ohm in (0.1, 470.0, 1000.0)),
)
DARK_LIMIT_MA = 1.0
RELEASES = ("stops low", "stops high", "stops floating")
RELEASE_LIMIT_MS = 5.0
COILS = (
    (RELAY, ""),
    (HEAVY_RELAY, ", 60 Ω 0.3 H"),
    (RELAY_WITH_DIODE, ", module's own diode"),
    (ISOLATED_INPUT, ", isolated 10 mA input"),
)


def dark() -> Iterator[Result]:
    """Every way in which one condition is missing leaves the coil without current."""
    for drive in DARK:
        # A pump pin that goes high passes one edge: the first 5 ms are allowed to it.
        current_ma = 1e3 * max(lamp(drive, SLOW_OFF, end_s=STOP_S).after("i(v_k1)", 5e-3))
        failed = f", {drive.failed} shorted" if drive.failed else ""
        failed += f", J2.2 to ground through {drive.bridge_ohm:g} Ω" if drive.bridge_ohm else ""
        name = f"coil current, gate {drive.gate}, pump {drive.pump}{failed} [{SLOW_OFF.name}]"
        yield at_most(name, current_ma, DARK_LIMIT_MA, "mA")


def lit() -> Iterator[Result]:
    """With both, the coil gets nearly all of the supply, for either duty that the loop may have."""
    for corner in CORNERS:
        for duty in (0.4, 0.6):
            curves = lamp(Drive("high", "runs", duty), corner, end_s=STOP_S)
            legs = (curves.values[f"v(n_lamp_{leg})"][-1] for leg in ("high", "low"))
            share = 100 * (next(legs) - next(legs)) / SUPPLY_V
            yield at_least(
                f"coil voltage, pump duty {duty:g} [{corner.name}]", share, 95.0, "% of the supply"
            )
            held = min(curves.after("v(n_hold)", 5e-3))
            margin = held - corner.threshold_v
            yield at_least(
                f"held voltage over Q2's threshold, duty {duty:g} [{corner.name}]", margin, 0.3, "V"
            )
    on_ms = 1e3 * lamp(Drive("high", "runs"), HARD_ON, end_s=STOP_S).first_above(
        "v(n_hold)", HARD_ON.threshold_v + 0.2
    )
    yield at_most(f"pump to Q2 on [{HARD_ON.name}]", on_ms, 1.0, "ms")


def released() -> Iterator[Result]:
    """When the pump stops or sticks, the coil loses half its current within 5 ms, the gate still high."""
    for pump in RELEASES:
        for coil, label in COILS:
            name = f"coil at half current, pump {pump}{label} [{SLOW_OFF.name}]"
            yield at_most(name, _release_ms(Drive("high", pump), SLOW_OFF, coil), RELEASE_LIMIT_MS, "ms")
    yield at_most(
        f"coil at half current, gate drops [{SLOW_OFF.name}]",
        _release_ms(Drive("drops", "runs"), SLOW_OFF, RELAY),
        1.0,
        "ms",
    )


def _release_ms(drive: Drive, corner: Corner, coil: Coil) -> float:
    curves = lamp(drive, corner, coil)
    return 1e3 * (curves.last_above("i(v_k1)", 0.5 * SUPPLY_V / coil.ohm) - STOP_S)


def clamped() -> Iterator[Result]:
    """The coil's kick stays far below what the FETs bear, and does not reach the LED."""
    for drive, what in ((Drive("drops", "runs"), "gate drops"), (Drive("high", "stops low"), "pump stops")):
        curves = lamp(drive, TYPICAL, HEAVY_RELAY)
        high, low = curves.values["v(n_lamp_high)"], curves.values["v(n_lamp_low)"]
        name = f"{what}, 60 Ω 0.3 H"
        yield at_most(f"highest voltage at Q2, {name}", max(low), 0.5 * FET_BREAKDOWN_V, "V")
        yield at_most(f"voltage across Q5, {name}", SUPPLY_V - min(high), 0.6 * BC327_V, "V")
        pins = [*curves.values["v(n_coil_high)"], *curves.values["v(n_coil_low)"]]
        yield at_most(f"read-back above 3.3 V, {name}", max(pins) - TYPICAL.logic_v, 0.3, "V")
        yield at_most(f"read-back below 0 V, {name}", -min(pins), 0.3, "V")
    pairs = zip(low, curves.values["v(n_led_a)"], strict=True)
    yield at_most("reverse voltage at LED1", max(cathode - anode for cathode, anode in pairs), 5.0, "V")
    energy_mj = 1e3 * 0.5 * HEAVY_RELAY.inductance_h * (SUPPLY_V / HEAVY_RELAY.ohm) ** 2
    yield at_most("energy into the 12 V clamp at each release", energy_mj, 10.0, "mJ")


def currents() -> Iterator[Result]:
    """Pins, LED and sounder transistor stay within their ratings."""
    lit_curves = lamp(Drive("high", "runs"), SLOW_OFF, end_s=STOP_S)
    yield at_most(
        "peak current of the pump pin", 1e3 * max(abs(i) for i in lit_curves.values["i(v_pump)"]), 12.0, "mA"
    )
    led_ma = 1e3 * (lit_curves.values["v(n_lamp_high)"][-1] - lit_curves.values["v(n_led_a)"][-1]) / 2200
    yield at_most("current of LED1", led_ma, 5.0, "mA")
    yield at_least("current of LED1, to be visible", led_ma, 0.5, "mA")
    curves = _sounder()
    yield at_most("base current of Q4", 1e3 * max(curves.values["i(v_base)"]), 4.0, "mA")
    yield at_most(
        "collector current of Q4, pin stuck high", 1e3 * max(curves.values["i(v_bz1)"]), 400.0, "mA"
    )
    yield at_most("saturation voltage of Q4", curves.values["v(n_sounder)"][-1], 0.4, "V")


@cache
def _sounder() -> Curves:
    deck = Deck(circuit(), TYPICAL)
    deck.parts(("R9", "R10", "Q4", "D8"))
    deck.coil("BZ1", Coil(42.0, 5e-3))
    deck.add(
        f"v_supply n_p5v 0 {SUPPLY_V}", f"v_buzzer pin 0 {TYPICAL.logic_v}", f"r_pin pin base_pin {PIN_OHM}"
    )
    deck.add("v_base base_pin n_buzzer 0")
    return deck.run(1e-6, 3e-3, ("i(v_base)", "i(v_bz1)", "v(n_sounder)"))


def white() -> Iterator[Result]:
    """The white-light contact is open when its pin floats or is low, closed when it is high."""
    for level, corner in (("floating", SLOW_OFF), ("0", SLOW_OFF), (f"{HARD_ON.logic_v}", HARD_ON)):
        current_ma = 1e3 * _white(level, corner).values["i(v_k2)"][-1]
        if corner is HARD_ON:
            yield at_least(
                f"white coil, pin high [{corner.name}]", current_ma, 0.95 * 1e3 * SUPPLY_V / RELAY.ohm, "mA"
            )
        else:
            yield at_most(f"white coil, pin {level} [{corner.name}]", current_ma, DARK_LIMIT_MA, "mA")


@cache
def _white(level: str, corner: Corner) -> Curves:
    deck = Deck(circuit(), corner)
    deck.parts(("R7", "R8", "Q3", "D7"))
    deck.coil("K2", RELAY)
    pin = [f"i_leak 0 n_white {PIN_LEAK_A}"] if level == "floating" else [f"v_white n_white 0 {level}"]
    deck.add(f"v_supply n_p5v 0 {SUPPLY_V}", *pin)
    return deck.run(5e-6, 20e-3, ("i(v_k2)",))


INPUT_HIGH_V = 2.0
INPUT_LOW_V = 0.8


def pedal() -> Iterator[Result]:
    """A wet cable of 20 kΩ reads as open, a dirty contact of 100 Ω as closed, and opening is seen soon."""
    for line, pin in (("MAKE_LINE", "PEDAL_MAKE"), ("REST_LINE", "PEDAL_REST")):
        wet = _pedal(line, pin, 20e3)
        yield at_least(
            f"{pin}, contact open, 20 kΩ wet", wet.values[f"v(n_{pin.lower()})"][-1], INPUT_HIGH_V + 0.5, "V"
        )
        dirty = _pedal(line, pin, 100.0)
        yield at_most(
            f"{pin}, contact closed, 100 Ω", dirty.values[f"v(n_{pin.lower()})"][-1], INPUT_LOW_V - 0.3, "V"
        )
    rise = _pedal("REST_LINE", "PEDAL_REST", 20e3)
    yield at_most(
        "rest contact opens to pin high, 20 kΩ wet",
        1e3 * rise.first_above("v(n_pedal_rest)", INPUT_HIGH_V),
        0.1,
        "ms",
    )


@cache
def _pedal(line: str, pin: str, leak_ohm: float) -> Curves:
    """From all lines at 0 V, as at the moment a closed contact opens; 1 nF of cable."""
    deck = Deck(circuit(), SLOW_OFF)
    deck.parts(("R14", "R16", "C7") if pin == "PEDAL_MAKE" else ("R15", "R17", "C8"))
    net = "n_" + line.lower()
    deck.add(f"v_logic n_3v3 0 {HARD_ON.logic_v}", f"r_leak {net} 0 {leak_ohm}", f"c_cable {net} 0 1n")
    deck.add(f"i_pin n_{pin.lower()} 0 {PIN_LEAK_A}")
    return deck.run(0.2e-6, 0.5e-3, (f"v(n_{pin.lower()})",))


SENSE_LIT_V = 1.65
SENSE_DUE_MS = 100.0
LAMP_LATE_MS = 40.0


def sense() -> Iterator[Result]:
    """A lamp that goes dark 100 times a second reads as lit in time, all through, and as dark soon after.

    The photodiode stands here as a current source of 25 µA on average.
    """
    curves = _sense_curves()
    lit_ms = 1e3 * curves.first_above("v(n_sense)", SENSE_LIT_V)
    yield at_most("lamp sense, light to reading as lit", lit_ms, SENSE_DUE_MS - LAMP_LATE_MS, "ms")
    steady = [v for t, v in zip(curves.time_s, curves.values["v(n_sense)"], strict=True) if 0.1 < t < 0.2]
    yield at_least("lamp sense, least reading while lit, flicker 100 Hz", min(steady), SENSE_LIT_V + 0.3, "V")
    yield at_most("lamp sense, highest reading while lit", max(steady), TYPICAL.logic_v, "V")
    dark_ms = 1e3 * (curves.last_above("v(n_sense)", SENSE_LIT_V) - 0.2)
    yield at_most("lamp sense, dark to reading as dark", dark_ms, SENSE_DUE_MS, "ms")


@cache
def _sense_curves() -> Curves:
    deck = Deck(circuit(), TYPICAL)
    deck.parts(("R18", "R19", "R20", "C9"))
    # sin(0 …) lifted by its own amplitude: from nothing to twice the average, 100 times a second, for 0.2 s.
    deck.add(
        f"v_logic n_3v3 0 {TYPICAL.logic_v}",
        "b_lamp n_sense_feed n_sense_line I = time < 0.2 ? 25u * (1 - cos(628.3185 * time)) : 0",
    )
    return deck.run(0.2e-3, 0.4, ("v(n_sense)",))


SENSOR_UA = (0.0, 0.5, 1.5, 5.0, 15.0)
SATURATED_V = 2.9


def light_sensor() -> Iterator[Result]:
    """Less its dark reading, the sensor is linear over a decade and a half, at all corners; excess shows."""
    for corner in CORNERS:
        for leak_a in (-PIN_LEAK_A, PIN_LEAK_A):
            volts = [_sensor_v(corner, leak_a, 1e-6 * ua) for ua in SENSOR_UA]
            shares = [(v - volts[0]) / ua for v, ua in zip(volts[1:], SENSOR_UA[1:], strict=True)]
            worst = 100 * max(abs(share / shares[-1] - 1) for share in shares)
            leak = f"pin leaks {1e6 * leak_a:+g} µA"
            name = f"light sensor, off linear from 0.5 to 15 µA, {leak} [{corner.name}]"
            yield at_most(name, worst, 1.0, "%")
        much = _sensor_v(corner, 0.0, 60e-6)
        name = f"light sensor, four times too much light shows [{corner.name}]"
        yield at_least(name, much, SATURATED_V * corner.logic_v / TYPICAL.logic_v, "V")


@cache
def _sensor_v(corner: Corner, leak_a: float, light_a: float) -> float:
    """What the pin sees once settled; the photodiode is a source, its junction and 50 MΩ beside it."""
    deck = Deck(circuit(), corner)
    deck.parts(("R18", "R19", "R20", "C9"))
    deck.add(
        f"v_logic n_3v3 0 {corner.logic_v}",
        f"i_light n_sense_feed n_sense_line {light_a:g}",
        "d_junction n_sense_line n_sense_feed PHOTO",
        ".model PHOTO D(Is=1e-11 N=1.5 Cjo=70p)",
        "r_shunt n_sense_line n_sense_feed 50meg",
        f"i_pin n_sense 0 {leak_a:g}",
    )
    return deck.run(1e-3, 0.4, ("v(n_sense)",)).values["v(n_sense)"][-1]


QUESTIONS: tuple[Callable[[], Iterator[Result]], ...] = (
    dark,
    lit,
    released,
    clamped,
    currents,
    white,
    pedal,
    sense,
    light_sensor,
)


def all_results() -> list[Result]:
    """Ask everything."""
    return [result for question in QUESTIONS for result in question()]


if __name__ == "__main__":
    print(*all_results(), sep="\n")
