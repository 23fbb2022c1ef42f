"""What the box draws from its supply, part by part, and the display's currents from R_SET."""

from __future__ import annotations

from dataclasses import dataclass

# MAX7219 data sheet, table of R_SET: 63.7 kΩ gives 10 mA a segment into 2.0 V LEDs (from memory; 28 kΩ for
# 20 mA at 2.5 V of the same table was seen quoted). Near there the current goes as 1/R_SET.
R_SET_KOHM = 68.0
SEGMENT_MA = 10.0 * 63.7 / R_SET_KOHM
MODULES = 4
ROWS = 8
# Supply current of one MAX7219 itself with no LED lit, at most (data sheet, from memory).
CHIP_MA = 8.0
# The modules as sold carry 10 kΩ: about 40 mA a segment.
SOLD_SEGMENT_MA = 40.0

FUSE_HOLD_MA = 1100.0
SUPPLY_MA = 2000.0
COIL_MA = 5.0 / 60.0 * 1e3


@dataclass(frozen=True)
class Load:
    """One consumer on the 5 V rail [mA]."""

    name: str
    usual_ma: float
    most_ma: float
    why: str


def display_ma(intensity: int, lit_share: float, segment_ma: float = SEGMENT_MA) -> float:
    """Return what all four modules draw [mA].

    Args:
        intensity: the register, 0 to 15: duty (2 n + 1)/32 (MAX7219 data sheet).
        lit_share: part of the LEDs that are on, 0 to 1.
        segment_ma: peak current of one LED [mA].
    """
    return MODULES * (CHIP_MA + ROWS * segment_ma * lit_share * (2 * intensity + 1) / 32)


def display_test_ma(segment_ma: float = SEGMENT_MA) -> float:
    """Return what they draw if relay noise puts all four into display test: all LEDs, duty 31/32 [mA]."""
    return display_ma(15, 1.0, segment_ma)


def loads() -> list[Load]:
    """Return every consumer."""
    return [
        Load("Pico", 30, 100, "3.3 V side included; data sheet's figures are below 100 mA"),
        Load(
            "lamp relay module", COIL_MA, COIL_MA, "while the lamp is lit; 60 Ω is the least that is allowed"
        ),
        Load("white-light relay module", COIL_MA, COIL_MA, "while white light is allowed"),
        Load("display", display_ma(3, 0.3), display_test_ma(), "most: all four in display test"),
        Load("sounder", 30, 119, "usual: half the time; most: its pin stuck high, 5 V at 42 Ω"),
        Load("lamp LED, pedal and bus pull-ups", 6, 12, "1.4 mA + 3.3 mA a pedal line + pull-ups"),
    ]


def total_ma() -> tuple[float, float]:
    """Return the usual and the greatest sum [mA]."""
    return sum(load.usual_ma for load in loads()), sum(load.most_ma for load in loads())
