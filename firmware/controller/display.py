"""Four MAX7219 modules in a row: 32 columns, eight rows.

Every frame rewrites all control registers too, because relay noise can put the chip into its display
test, in which every LED is fully lit: that would be fog.
"""

from controller import font
from footlight_core import const

COLUMNS = 32
_MODULES = const(4)
_ROWS = const(8)

# Registers of the MAX7219 (data sheet, table 2).
_DIGIT0 = const(1)
_DECODE = const(9)
_INTENSITY = const(10)
_SCAN_LIMIT = const(11)
_SHUTDOWN = const(12)
_TEST = const(15)

# The intensity register goes to 15; more than this is never sent, whatever is asked.
INTENSITY_CAP = 3


class Display:
    """Shows one text. `spi` writes bytes; `cs` is called with 0 and 1."""

    def __init__(self, spi, cs):
        self._spi = spi
        self._cs = cs
        self._frame = bytearray(_ROWS * _MODULES)
        self._words = bytearray(2 * _MODULES)

    def show(self, text, big, brightness):
        """Send a frame. `brightness` 0 = dark, 1 upwards = intensity 0 upwards, capped."""
        self._draw(text, big)
        self._control(_TEST, 0)
        self._control(_SHUTDOWN, 1 if brightness else 0)
        self._control(_DECODE, 0)
        self._control(_SCAN_LIMIT, _ROWS - 1)
        self._control(_INTENSITY, min(max(brightness - 1, 0), INTENSITY_CAP))
        for row in range(_ROWS):
            self._send_row(row)

    def _draw(self, text, big):
        frame = self._frame
        for index in range(len(frame)):
            frame[index] = 0
        glyphs = font.BIG if big else font.SMALL
        x = max(0, (COLUMNS - columns(text, big)) // 2)
        for char in text:
            x = self._draw_glyph(glyphs.get(char, b""), x)

    def _draw_glyph(self, glyph, x):
        for column in glyph:
            if x >= COLUMNS:
                break
            module, bit = x >> 3, 0x80 >> (x & 7)
            row = 0
            while column:
                if column & 1:
                    self._frame[row * _MODULES + module] |= bit
                column >>= 1
                row += 1
            x += 1
        return x + 1

    def _control(self, register, value):
        words = self._words
        for module in range(_MODULES):
            words[2 * module] = register
            words[2 * module + 1] = value
        self._latch()

    def _send_row(self, row):
        words = self._words
        for module in range(_MODULES):
            # The first word sent ends in the module farthest from the controller, on the right.
            words[2 * module] = _DIGIT0 + row
            words[2 * module + 1] = self._frame[row * _MODULES + _MODULES - 1 - module]
        self._latch()

    def _latch(self):
        self._cs(0)
        self._spi.write(self._words)
        self._cs(1)


def columns(text, big):
    """How many columns a text takes."""
    glyphs = font.BIG if big else font.SMALL
    return sum([len(glyphs[char]) + 1 for char in text if char in glyphs]) - 1
