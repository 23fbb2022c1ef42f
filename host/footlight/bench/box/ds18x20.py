"""MicroPython's `ds18x20` by its names."""

_CONVERT, _READ, _WRITE = 0x44, 0xBE, 0x4E
_FAMILIES = (0x10, 0x22, 0x28)


class DS18X20:
    """Thermometers on a `onewire` bus."""

    def __init__(self, onewire):
        self.ow = onewire

    def scan(self):
        """Their numbers."""
        return [rom for rom in self.ow.scan() if rom[0] in _FAMILIES]

    def convert_temp(self):
        """All measure, from now on for 750 ms."""
        self.ow.reset(True)
        self.ow.writebyte(self.ow.SKIP_ROM)
        self.ow.writebyte(_CONVERT)

    def read_scratch(self, rom):
        """Nine bytes; Exception if their sum is wrong."""
        self._select(rom, _READ)
        buf = bytearray(9)
        self.ow.readinto(buf)
        if self.ow.crc8(buf):
            raise Exception("CRC error")  # noqa: TRY002 - as MicroPython's own does
        return buf

    def write_scratch(self, rom, buf):
        """Limits and resolution."""
        self._select(rom, _WRITE)
        self.ow.write(buf)

    def read_temp(self, rom):
        """[°C]"""
        buf = self.read_scratch(rom)
        code = buf[0] | buf[1] << 8
        return (code - 65_536 if code & 0x8000 else code) / 16

    def _select(self, rom, command):
        self.ow.reset(True)
        self.ow.select_rom(rom)
        self.ow.writebyte(command)
