"""The display as it would be seen: four MAX7219 and the eight rows of 32 dots that they light.

Registers as in the chip's data sheet (table 2): digits 1 to 8, intensity 10, shutdown 12, display test 15.
"""

ROWS = 8
COLUMNS = 32
_MODULES = 4
_INTENSITY = 10
_SHUTDOWN = 12
_TEST = 15
_LATCH_BYTES = 2 * _MODULES


class Panel:
    """Takes what was latched; knows what is lit."""

    def __init__(self) -> None:
        self._registers = [bytearray(16) for _ in range(_MODULES)]

    def latch(self, data: bytes) -> None:
        """Eight bytes for each latch. The first word ends in the module farthest to the right."""
        for start in range(0, len(data), _LATCH_BYTES):
            for word in range(_MODULES):
                register, value = data[start + 2 * word], data[start + 2 * word + 1]
                self._registers[_MODULES - 1 - word][register & 15] = value

    def disturb(self) -> None:
        """What noise of a relay can do: every module into its display test."""
        for registers in self._registers:
            registers[_TEST] = 1

    @property
    def in_test(self) -> bool:
        """Is every dot of some module fully lit?"""
        return any(registers[_TEST] & 1 for registers in self._registers)

    @property
    def is_on(self) -> bool:
        """Is anything shown at all?"""
        return any(registers[_SHUTDOWN] & 1 for registers in self._registers)

    @property
    def intensity(self) -> int:
        """The brightest module's intensity register, 0 to 15."""
        return max(registers[_INTENSITY] & 15 for registers in self._registers)

    def rows(self) -> list[list[bool]]:
        """Eight rows of 32 dots, True = lit."""
        return [[self._dot(row, column) for column in range(COLUMNS)] for row in range(ROWS)]

    def _dot(self, row: int, column: int) -> bool:
        registers = self._registers[column >> 3]
        if registers[_TEST] & 1:
            return True
        if not registers[_SHUTDOWN] & 1:
            return False
        return bool(registers[1 + row] & (0x80 >> (column & 7)))
