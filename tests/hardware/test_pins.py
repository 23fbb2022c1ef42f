"""pins.toml is the one source of pin numbers: the firmware's copy is what the generator makes from it."""

import runpy
from pathlib import Path

import pytest
from hardware.generate_pins import TARGET, render
from hardware.pins import PinError, read_pins

SOURCE = Path("hardware/pins.toml").read_text(encoding="utf-8")


def test_the_committed_firmware_pins_are_what_the_generator_makes() -> None:
    assert TARGET.read_text(encoding="utf-8") == render(read_pins())


def test_the_firmware_names_every_pin_of_the_table() -> None:
    constants = runpy.run_path(str(TARGET))
    for pin in read_pins().values():
        assert constants[pin.name] == pin.gpio
    assert constants["PEDAL_CLOSED"] == 0
    assert constants["LAMP_GATE"] in constants["SAFE_LOW"]
    assert constants["LAMP_PUMP"] in constants["SAFE_LOW"]


# Edge numbers by the Pico datasheet's pinout, typed here a second time on purpose.
@pytest.mark.parametrize(
    ("name", "edge"),
    [("LAMP_GATE", 4), ("LAMP_PUMP", 5), ("WHITE", 9), ("PEDAL_MAKE", 14), ("PEDAL_REST", 16), ("BUZZER", 20),
     ("SPI_CS", 22), ("SPI_SCK", 24), ("SPI_MOSI", 25), ("I2C_SDA", 26), ("I2C_SCL", 27), ("SENSE", 31)],
)  # fmt: skip
def test_edge_numbers(name: str, edge: int) -> None:
    assert read_pins()[name].edge == edge


GROUND_EDGES = {3, 8, 13, 18, 23, 28, 33, 38}


def test_no_single_bridge_between_neighbours_can_light_or_disarm() -> None:
    """Both sides of each pin that a light depends on are ground or unused; the lamp's own two may touch."""
    used = {pin.edge: pin.name for pin in read_pins().values() if pin.edge}
    allowed = {"LAMP_GATE": {"LAMP_PUMP"}, "LAMP_PUMP": {"LAMP_GATE"}}
    for name in ("LAMP_GATE", "LAMP_PUMP", "WHITE", "PEDAL_MAKE", "PEDAL_REST"):
        edge = read_pins()[name].edge
        assert edge is not None
        for neighbour in {edge - 1, edge + 1} - GROUND_EDGES:
            assert used.get(neighbour) is None or used[neighbour] in allowed.get(name, set())


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("gpio = 3\n", "gpio = 4\n", "LAMP_PUMP must be LAMP_GATE"),
        ("gpio = 6\n", "gpio = 2\n", "given twice"),
        ("gpio = 6\n", "gpio = 24\n", "not on the board's edge"),
        ("gpio = 18\n", "gpio = 16\n", "no such function"),
        ("closed = 0\n", "closed = 1\n", "close to ground"),
        ("safe = 0\n", "safe = 1\n", "active-low is refused"),
        ('pull = "up"', 'pull = "sideways"', "pull one of"),
    ],
)
def test_a_table_that_cannot_be_built_is_refused(tmp_path: Path, old: str, new: str, says: str) -> None:
    altered = tmp_path / "pins.toml"
    altered.write_text(SOURCE.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(PinError, match=says):
        read_pins(altered)
