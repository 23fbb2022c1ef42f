"""What the tests on the emulated board share: pins, a board with a program on it, spans of the gate."""

from tests.emulated import image
from tests.emulated.chip import Chip, Edge

from footlight.firmware_files import constants

_PINS = constants("pins")
GATE, PUMP = _PINS["LAMP_GATE"], _PINS["LAMP_PUMP"]
MAKE, REST = _PINS["PEDAL_MAKE"], _PINS["PEDAL_REST"]
SPI = 0


def started(source: str, *modules: str, erase_ms: float = 45.0) -> Chip:
    """A board at power-up, the foot off the pedal, with this main.py, our lamp.py and these modules."""
    files = image.script(source, "controller/lamp", "controller/pins", *modules)
    chip = Chip(files, erase_ms=erase_ms)
    foot_off(chip)
    return chip


def foot_off(chip: Chip) -> None:
    """At rest: the rest contact closed (low), the make contact open."""
    chip.drive(REST, 0)
    chip.drive(MAKE, 1)


def foot_down(chip: Chip) -> None:
    """Pressed: the rest contact open, the make contact closed."""
    chip.drive(REST, 1)
    chip.drive(MAKE, 0)


def spans_us(edges: list[Edge]) -> list[float]:
    """How long each exposure was [us]; the edges must come in pairs."""
    assert len(edges) % 2 == 0 and [level for _, level in edges] == [1, 0] * (len(edges) // 2)
    return [(fall - rise) / 1000 for (rise, _), (fall, _) in zip(edges[::2], edges[1::2], strict=True)]
