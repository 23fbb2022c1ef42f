"""Read pins.toml, and refuse a table that the chip or the firmware could not honour."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from pathlib import Path

SOURCE = Path(__file__).with_name("pins.toml")

ROLES = ("output", "input", "bus")
PULLS = ("down", "up", "none")

# GPIO to the pin number on the 40-pin edge: Pico datasheet, figure 'Pico pinout'. GPIO 25 drives the LED on
# the board and reaches no edge pin; 23, 24 and 29 serve the board's own regulator and are not ours.
EDGE_PIN = {
    0: 1, 1: 2, 2: 4, 3: 5, 4: 6, 5: 7, 6: 9, 7: 10, 8: 11, 9: 12, 10: 14, 11: 15, 12: 16, 13: 17, 14: 19,
    15: 20, 16: 21, 17: 22, 18: 24, 19: 25, 20: 26, 21: 27, 22: 29, 26: 31, 27: 32, 28: 34,
}  # fmt: skip
ONBOARD = {25}

# RP2040 datasheet, table 'GPIO functions': which GPIOs carry each signal of SPI0 and I2C0, and the ADC.
CAPABLE = {
    "SPI_SCK": {2, 6, 18, 22},
    "SPI_MOSI": {3, 7, 19, 23},
    "I2C_SDA": {0, 4, 8, 12, 16, 20},
    "I2C_SCL": {1, 5, 9, 13, 17, 21},
    "SENSE": {26, 27, 28, 29},
    "COIL_HIGH": {26, 27, 28, 29},
    "COIL_LOW": {26, 27, 28, 29},
}


class PinError(ValueError):
    """pins.toml asks for something that cannot be built; the message names the pin and the key."""


@dataclass(frozen=True)
class Pin:
    """One row of pins.toml."""

    name: str
    gpio: int
    role: str
    pull: str
    does: str
    safe: int | None = None
    closed: int | None = None

    @property
    def edge(self) -> int | None:
        """Number of the pin on the board's edge, or None for the LED on the board itself."""
        return EDGE_PIN.get(self.gpio)


def read_pins(source: Path = SOURCE) -> dict[str, Pin]:
    """Return the checked pins by name, in the order of the file.

    Raises:
        PinError: when a key has a value outside its range, or two pins clash.
    """
    table = tomllib.loads(source.read_text(encoding="utf-8"))["pins"]
    pins = {name: Pin(name=name, **row) for name, row in table.items()}
    for pin in pins.values():
        _check_pin(pin)
    _check_together(pins)
    return pins


def _check_pin(pin: Pin) -> None:
    if pin.gpio not in EDGE_PIN and pin.gpio not in ONBOARD:
        raise PinError(f"pins.toml: {pin.name}: gpio {pin.gpio} is not on the board's edge")
    if pin.role not in ROLES or pin.pull not in PULLS:
        raise PinError(f"pins.toml: {pin.name}: role must be one of {ROLES}, pull one of {PULLS}")
    if (pin.role == "output") != (pin.safe in (0, 1)):
        raise PinError(f"pins.toml: {pin.name}: safe (0 or 1) belongs to every output, and to outputs only")
    if pin.gpio not in CAPABLE.get(pin.name, {pin.gpio}):
        allowed = sorted(CAPABLE[pin.name])
        raise PinError(f"pins.toml: {pin.name}: gpio {pin.gpio} has no such function; take one of {allowed}")


def _check_together(pins: dict[str, Pin]) -> None:
    numbers = [pin.gpio for pin in pins.values()]
    doubled = {number for number in numbers if numbers.count(number) > 1}
    if doubled:
        raise PinError(f"pins.toml: gpio {sorted(doubled)} given twice")
    if pins["LAMP_PUMP"].gpio != pins["LAMP_GATE"].gpio + 1:
        raise PinError("pins.toml: LAMP_PUMP must be LAMP_GATE + 1: one PIO program side-sets both")
    if pins["LAMP_GATE"].safe != 0 or pins["LAMP_PUMP"].safe != 0 or pins["WHITE"].safe != 0:
        raise PinError("pins.toml: LAMP_GATE, LAMP_PUMP and WHITE are dark at 0; active-low is refused")
    if pins["PEDAL_REST"].closed != 0 or pins["PEDAL_MAKE"].closed != 0:
        raise PinError("pins.toml: pedal contacts close to ground: a broken rest wire must read as pressed")
