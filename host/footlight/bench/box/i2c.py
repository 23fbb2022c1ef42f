"""The part of MicroPython's `machine.I2C` that the firmware may use: one bus and its chips.

As on the chip: nobody at an address is OSError 5, a bus that is held is OSError 110 after its time-out.

`held`: a chip holds the data line until nine clocks have gone by, given by the clock's pin driven by hand;
`short`: the line is at ground for good. What a transfer takes of time it takes here too.
"""

import world as _worlds

_EIO, _ETIMEDOUT = 5, 110
_FREEING_CLOCKS = 9

chips = {}  # address -> chip with write(bytes) and read(count)
_state = {"fault": "", "clocks": 0}


def fit(fault):
    """What is wrong with the bus from now on; "" = nothing."""
    _state["fault"] = fault
    _state["clocks"] = 0


def clock_moved(level):
    """The clock's pin, driven by hand, has moved."""
    if not level:
        _state["clocks"] += 1
        if _state["fault"] == "held" and _state["clocks"] >= _FREEING_CLOCKS:
            _state["fault"] = ""


class I2C:
    """One bus. Names of arguments as on the chip."""

    def __init__(self, id, scl=None, sda=None, freq=400_000, timeout=50_000):
        self._bit_us = 1_000_000 / freq
        self._timeout_us = timeout

    def scan(self):
        """Addresses that answer."""
        self._take(0)
        return sorted(chips)

    def writeto(self, addr, buf, stop=True):
        """Bytes to a chip."""
        self._chip(addr, len(buf)).write(bytes(buf))
        return len(buf)

    def readfrom_into(self, addr, buf, stop=True):
        """As many bytes as fit."""
        buf[:] = self._chip(addr, len(buf)).read(len(buf))

    def readfrom(self, addr, nbytes, stop=True):
        """Bytes of a chip."""
        return self._chip(addr, nbytes).read(nbytes)

    def writeto_mem(self, addr, memaddr, buf, addrsize=8):
        """Bytes to a register."""
        self._chip(addr, 1 + len(buf)).write(bytes([memaddr]) + bytes(buf))

    def readfrom_mem_into(self, addr, memaddr, buf, addrsize=8):
        """As many bytes of a register as fit."""
        buf[:] = self.readfrom_mem(addr, memaddr, len(buf))

    def readfrom_mem(self, addr, memaddr, nbytes, addrsize=8):
        """Bytes of a register."""
        chip = self._chip(addr, 2 + nbytes)
        chip.write(bytes([memaddr]))
        return chip.read(nbytes)

    def _chip(self, address, count):
        self._take(count)
        if address not in chips:
            raise OSError(_EIO)
        return chips[address]

    def _take(self, count):
        if _state["fault"]:
            _worlds.world.spend_us(self._timeout_us)
            raise OSError(_ETIMEDOUT)
        # Start, address, bytes with their acknowledgements, stop.
        _worlds.world.spend_us(int(self._bit_us * (9 * (count + 1) + 2)))
