"""Make firmware/controller/pins.py from pins.toml: `python -m hardware.generate_pins`."""

from __future__ import annotations

from pathlib import Path

from hardware.pins import Pin, read_pins

TARGET = Path(__file__).parent.parent / "firmware" / "controller" / "pins.py"

HEAD = '''"""Pins and their polarity. Made from hardware/pins.toml: do not edit."""
'''


def render(pins: dict[str, Pin]) -> str:
    """Return the text of the firmware's pins.py."""
    numbers = "".join(_constant(pin) for pin in pins.values())
    return HEAD + "\n" + numbers + "\n" + _polarity(pins)


def _constant(pin: Pin) -> str:
    return f"{pin.name} = {pin.gpio}  # {pin.does}\n"


def _polarity(pins: dict[str, Pin]) -> str:
    dark = [pin.name for pin in pins.values() if pin.safe == 0 and pin.edge]
    return (
        "# Level of a pedal line while its contact is closed; open, or broken, reads the other level.\n"
        f"PEDAL_CLOSED = {pins['PEDAL_REST'].closed}\n"
        "# Driven low before anything else.\n"
        f"SAFE_LOW = ({', '.join(dark)})\n"
        "# The chip's own weak resistors, besides those on the board.\n"
        f"PULL_UP = ({_pulled(pins, 'up')})\n"
        f"PULL_DOWN = ({_pulled(pins, 'down')})\n"
    )


def _pulled(pins: dict[str, Pin], direction: str) -> str:
    return ", ".join(pin.name for pin in pins.values() if pin.pull == direction)


def main() -> None:
    """Write the file."""
    TARGET.write_text(render(read_pins()), encoding="utf-8")


if __name__ == "__main__":
    main()
