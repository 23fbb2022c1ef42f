"""A thermometer on one wire (DS18B20), bit by bit; its commands and bytes from memory of its data sheet.

After power-on it holds 85 °C until it has measured. Keys are those of `footlight.bench.lamp.Thermometer`.
"""

import world as _worlds

_SEARCH, _MATCH, _SKIP, _READ_ROM = 0xF0, 0x55, 0xCC, 0x33
_CONVERT, _READ, _WRITE = 0x44, 0xBE, 0x4E
_FAMILY = 0x28
_POWER_ON_SIXTEENTHS = 85 * 16
_CONVERSION_US = 750_000


def crc8(data):
    """Polynomial x^8 + x^5 + x^4 + 1, the lowest bit first."""
    rest = 0
    for byte in data:
        rest ^= byte
        for _ in range(8):
            rest = rest >> 1 ^ 0x8C if rest & 1 else rest >> 1
    return rest


def _sealed(data):
    return bytes(data) + bytes([crc8(data)])


class Chip:
    """One thermometer."""

    def __init__(self, fitted):
        self.fitted = fitted
        self.rom = _sealed(bytes([_FAMILY, 1, 2, 3, 4, 5, fitted["number"] & 255]))
        self._sixteenths = _POWER_ON_SIXTEENTHS
        self._ready_us = 0
        self._waiting = False
        self.reset()

    def reset(self):
        """Begin anew to listen: for which of them is meant, then for what it shall do."""
        self._heard, self._count = 0, 0
        self._expects = "rom"
        self._bits = []
        self._place = 0
        self._step = 0

    def write_bit(self, bit):
        """From the controller."""
        if self._expects == "search":
            self._search(bit)
            return
        self._heard |= bit << self._count
        self._count += 1
        if self._expects == "match" and self._count == 64:
            mine = self._heard == sum([byte << 8 * place for place, byte in enumerate(self.rom)])
            self._listen("command" if mine else "nothing")
        elif self._expects in ("rom", "command") and self._count == 8:
            self._obey(self._heard)

    def read_bit(self):
        """To the controller; a line that nobody pulls is high."""
        if self._expects == "search":
            bit = self.rom[self._place >> 3] >> (self._place & 7) & 1
            self._step ^= 1
            return bit if self._step else 1 - bit
        if not self._bits:
            return 0 if self._waiting and _worlds.world.now_us < self._ready_us else 1
        return self._bits.pop(0)

    def _search(self, bit):
        mine = self.rom[self._place >> 3] >> (self._place & 7) & 1
        self._place += 1
        if bit != mine or self._place == 64:
            self._listen("nothing")

    def _listen(self, what):
        self._expects, self._heard, self._count = what, 0, 0

    def _obey(self, command):
        if self._expects == "rom":
            self._listen({_SEARCH: "search", _MATCH: "match", _SKIP: "command"}.get(command, "nothing"))
            if command == _READ_ROM:
                self._send(self.rom)
            return
        self._listen("nothing")
        if command == _CONVERT:
            self._waiting = True
            self._ready_us = _worlds.world.now_us + _CONVERSION_US
        elif command == _READ:
            self._send(self._scratchpad())

    def _scratchpad(self):
        if self._waiting and _worlds.world.now_us >= self._ready_us:
            self._waiting = False
            self._sixteenths = round(self.fitted["celsius"] * 16)
        code = self._sixteenths & 0xFFFF
        pad = bytearray(_sealed(bytes([code & 255, code >> 8, 75, 70, 127, 255, 12, 16])))
        if self.fitted["fault"] == "noisy":
            pad[0] ^= 4
        return pad

    def _send(self, data):
        self._bits = [byte >> place & 1 for byte in data for place in range(8)]


_chip = [None]


def fit(fitted):
    """The thermometer from now on; None = nothing is plugged in."""
    before = _chip[0]
    _chip[0] = Chip(fitted) if fitted else None
    if before and fitted and fitted["fault"] != "reset":
        before.fitted = fitted
        _chip[0] = before


def _fault():
    return _chip[0].fitted["fault"] if _chip[0] else "unplugged"


def reset():
    """Is there an answer? A line at ground looks like one."""
    if _fault() in ("", "noisy", "reset"):
        _chip[0].reset()
        return True
    return _fault() == "short"


def write_bit(bit):
    """To the thermometer."""
    if _fault() not in ("unplugged", "short"):
        _chip[0].write_bit(bit)


def read_bit():
    """Of the thermometer: an empty line is high, one at ground low."""
    if _fault() in ("unplugged", "short"):
        return 1 if _fault() == "unplugged" else 0
    return _chip[0].read_bit()
