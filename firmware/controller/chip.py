"""The chip, and its registers that MicroPython has no name for. All that another chip of the family changes.

Of the RP2040: its data sheet, 4.7 Watchdog, and 2.1.2 for the addresses that set and clear bits.
"""

from footlight_core import const

# As the board's own description spells it; the installer refuses any other.
NAME = "RP2040"

WATCHDOG_CTRL = const(0x40058000)
WATCHDOG_CTRL_SET = const(0x40058000 + 0x2000)
WATCHDOG_CTRL_CLEAR = const(0x40058000 + 0x3000)
WATCHDOG_ENABLE = const(1 << 30)
# Of eight; 4 to 7 belong to the chip's own start-up.
SCRATCH0 = const(0x4005800C)
SCRATCH1 = const(0x40058010)
