"""MicroPython's `onewire` by its names, with a thermometer instead of a wire; the unix port has none.

Every reset and every bit takes its time.
"""

import thermometer
import world as _worlds

_RESET_US = 960
_BIT_US = 65


class OneWireError(Exception):
    """Nothing answers a reset."""


class OneWire:
    """The bus at one pin."""

    SEARCH_ROM = 0xF0
    MATCH_ROM = 0x55
    SKIP_ROM = 0xCC

    def __init__(self, pin):
        self.pin = pin

    def reset(self, required=False):
        """Does anything answer?"""
        _worlds.world.spend_us(_RESET_US)
        answers = thermometer.reset()
        if required and not answers:
            raise OneWireError
        return answers

    def readbit(self):
        """One bit."""
        _worlds.world.spend_us(_BIT_US)
        return thermometer.read_bit()

    def readbyte(self):
        """Eight, the lowest first."""
        return sum([self.readbit() << place for place in range(8)])

    def readinto(self, buf):
        """As many as fit."""
        for place in range(len(buf)):
            buf[place] = self.readbyte()

    def writebit(self, value):
        """One bit."""
        _worlds.world.spend_us(_BIT_US)
        thermometer.write_bit(value & 1)

    def writebyte(self, value):
        """Eight, the lowest first."""
        for place in range(8):
            self.writebit(value >> place)

    def write(self, buf):
        """Bytes."""
        for byte in buf:
            self.writebyte(byte)

    def select_rom(self, rom):
        """Talk to this one only."""
        self.reset()
        self.writebyte(self.MATCH_ROM)
        self.write(rom)

    def scan(self):
        """Who is there: here at most one, so that no search need branch."""
        if not self.reset():
            return []
        self.writebyte(self.SEARCH_ROM)
        rom = bytearray(8)
        for place in range(64):
            bit, inverse = self.readbit(), self.readbit()
            if bit and inverse:
                return []
            self.writebit(bit)
            rom[place >> 3] |= bit << (place & 7)
        return [rom]

    def crc8(self, data):
        """0 where the last byte is the sum of those before."""
        return crc8(data)


def crc8(data):
    """Polynomial x^8 + x^5 + x^4 + 1, the lowest bit first."""
    return thermometer.crc8(data)
