"""PIO of the emulated chip, run by the clock and not by the processor's instructions.

The emulator gives PIO one step for each instruction of the processor, and one for each jump while it sleeps.
So pulses came out wrong asleep, and a few microseconds long under instructions of many cycles. Here each PIO
instruction is an alarm of the simulated clock at the very cycle on which it is due.
"""

from typing import Any

_NS_PER_CYCLE = 8.0
_ADDRESSES = (0x50200, 0x50300)


class PioClock:
    """One PIO block; stands in its place on the processor's bus."""

    def __init__(self, mcu: Any, index: int) -> None:
        self._pio = mcu.pio[index]
        self._clock = mcu.clock
        self._alarm = mcu.clock.create_alarm(self._due)
        mcu.peripherals[_ADDRESSES[index]] = self

    def read_uint32(self, offset: int) -> int:
        """As the block itself. Emptying a queue may let a machine go on."""
        self._catch_up()
        value = self._pio.read_uint32(offset)
        self._arm()
        return value

    def write_uint32_atomic(self, offset: int, value: int, atomic_type: int) -> None:
        """As the block itself, at this very cycle."""
        self._catch_up()
        self._pio.write_uint32_atomic(offset, value, atomic_type)
        # The emulator's own loop leaves a stopped block alone.
        self._pio.stopped = True
        self._arm()

    def _catch_up(self) -> None:
        self._pio.cycle_fp = max(self._pio.cycle_fp, int(self._clock.nanos / _NS_PER_CYCLE) << 8)

    def _due(self) -> None:
        self._pio.cycle_fp = round(self._clock.nanos / _NS_PER_CYCLE) << 8
        self._pio.advance(0)
        self._arm()

    def _arm(self) -> None:
        if self._is_parked():
            self._alarm.cancel()
            return
        self._pio.recompute_due()
        due_ns = -(-self._pio.next_due_fp // 256) * _NS_PER_CYCLE
        self._alarm.schedule(max(due_ns - self._clock.nanos, 0.0))

    def _is_parked(self) -> bool:
        """Does every running machine wait, or jump to itself for ever? Then nothing of it changes."""
        pio = self._pio
        return all(
            machine.waiting or pio.instructions[machine.pc & 31] & 0xE0FF == machine.pc
            for machine in pio.machines
            if machine.enabled
        )
