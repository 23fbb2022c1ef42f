"""The bench: the real firmware on simulated parts, driven step by step in virtual time.

Nothing happens unless it is granted time (`run_for`, `run_until`, or whatever needs time, such as `tap`),
and then the same happens every time. Power off and on keeps what lies in the folder: the flash.
"""

import json
import random
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any, ClassVar

from footlight.bench import events as ev
from footlight.bench.events import Event
from footlight.bench.lamp import Fitted, reading_of
from footlight.bench.panel import Panel
from footlight.bench.process import BoxProcess, best_interpreter
from footlight.bench.stream import BenchStream
from footlight.firmware_files import constants, firmware_folders
from footlight.kinds import BENCH_MARK

# Objects of the unix port are twice as large as the chip's; this is the chip's heap in that currency.
HEAP_KIB = 512
_SCRATCH_WORDS = 8
_LIGHT_PINS = ("LAMP_GATE", "LAMP_PUMP", "WHITE", "WHITE_READ", "COIL_HIGH", "COIL_LOW", "SENSE", "I2C_SCL")
_POWERED_UP, _BITTEN = 1, 3

Listener = Callable[[Event], None]
Ear = Callable[[int, bytes], None]
Reader = Callable[[bytes], None]


class Bench:
    """A controller on the bench. A context manager; leaving it cuts the power.

    `folder`: where its flash lies. `interpreter`: "micropython", "cpython", or None for the better one
    that is there. `seed`: makes its identity and whatever is random. `polls`: True = the firmware looks at
    the pedal each 10 ms as on the chip, False = it wakes when an input changes. `firmware`: other folders
    than this tool's own. `locks_heap`: MicroPython's heap is locked while the app looks with its lamp on.
    `lamp`: lamp and sensor that are fitted; None = the sensor gives what `sense` says.
    """

    watchers: ClassVar[list[Callable[["Bench"], object]]] = []  # called with every bench that is made

    def __init__(
        self,
        folder: Path | str,
        interpreter: str | None = None,
        heap_kib: int = HEAP_KIB,
        seed: int = 1,
        polls: bool = False,
        ticks_start_us: int = 0,
        firmware: list[Path] | None = None,
        locks_heap: bool = False,
        lamp: Fitted | None = None,
    ) -> None:
        self.folder = Path(folder)
        self.folder.mkdir(parents=True, exist_ok=True)
        self.interpreter = interpreter or best_interpreter()
        self.events: list[Event] = []
        self.listeners: list[Listener] = []
        self.heard: list[tuple[int, bytes]] = []  # what the computer has said: (when [us], bytes)
        self.ears: list[Ear] = []  # told of it as it comes
        self.readers: list[Reader] = []  # told of what the controller says, as the computer reads it
        self.panel = Panel()
        self.lock = threading.RLock()
        self.now_us = 0
        self.end: Event | None = None  # how the firmware ended, if it did
        self.starts_us: list[int] = []  # when the firmware was started
        # What another bench needs to do the same, beside firmware and flash.
        self.options: dict[str, Any] = {"interpreter": self.interpreter, "heap_kib": heap_kib, "seed": seed}
        self.options |= {"polls": polls, "ticks_start_us": ticks_start_us, "locks_heap": locks_heap}
        self.options["lamp"] = self._lamp = lamp
        self._unique = [*BENCH_MARK, *random.Random(seed).randbytes(3)]
        self._firmware = firmware or firmware_folders()
        self._pins = constants("pins", self._firmware[0])
        self._levels: dict[str, int] = {}
        self._inputs: dict[int, int] = {}
        self._sense_volts = 0.0
        self._coil_fault = ""
        self._bad_blocks: tuple[int, ...] = ()
        self._process: BoxProcess | None = None
        self._scratch = [0] * _SCRATCH_WORDS
        self._stream = BenchStream(self)
        self.contacts(False, True)
        for watch in Bench.watchers:
            watch(self)

    def __enter__(self) -> "Bench":
        return self

    def __exit__(self, *exc: object) -> None:
        self.cut_power()

    # -- power -------------------------------------------------------------------------------------

    def switch_on(self) -> None:
        """Power on; the firmware then starts as soon as time is granted."""
        with self.lock:
            if self._process is None:
                self._scratch = [0] * _SCRATCH_WORDS
                self._start(_POWERED_UP)

    def cut_power(self) -> None:
        """Power off, whatever is going on. The flash stays as it is at this moment."""
        with self.lock:
            self._stop()
            self._stream.forget()

    @property
    def is_on(self) -> bool:
        """Is there power?"""
        return self._process is not None

    @property
    def lives(self) -> int:
        """How often the firmware has been started."""
        return len(self.starts_us)

    # -- time --------------------------------------------------------------------------------------

    @property
    def now_ms(self) -> int:
        """Time of the bench since it was made [ms]; goes on over power cuts."""
        return self.now_us // 1000

    def run_for(self, span_ms: float) -> None:
        """Let time pass [ms]."""
        self.run_until(self.now_us / 1000 + span_ms)

    def run_until(self, until_ms: float) -> None:
        """Let time pass up to `until_ms` of the bench [ms]."""
        self._run(round(until_ms * 1000), None)

    def run_until_event(self, wanted: Callable[[Event], bool], limit_ms: float, *kinds: str) -> Event | None:
        """Let time pass up to the first event that is wanted, at most `limit_ms` from now [ms].

        Time then stands still, after all that the firmware did at that moment; with `kinds` it stands still
        within the firmware's doing, right at an event of these kinds. None = it never came.
        """
        return self._run(self.now_us + round(limit_ms * 1000), wanted, kinds or ("*",))

    # -- inputs ------------------------------------------------------------------------------------

    def contacts(self, make: bool, rest: bool) -> None:
        """Each contact of the pedal closed (True) or open, at this moment."""
        with self.lock:
            self._note(Event(self.now_us, ev.PEDAL, f"{make:d} {rest:d}"))
            self._move_contacts(make, rest)

    def press(self) -> None:
        """The foot goes down."""
        self.contacts(True, False)

    def release(self) -> None:
        """The foot comes up."""
        self.contacts(False, True)

    def tap(self, ms: float = 150) -> None:
        """A short press and its release."""
        self.press()
        self.run_for(ms)
        self.release()
        self.run_for(50)

    def hold(self, ms: float = 1500) -> None:
        """A long press and its release."""
        self.tap(ms)

    def sense(self, volts: float) -> None:
        """What the lamp's sensor gives [V]."""
        with self.lock:
            self._sense_volts = volts
            self._command(f"adc {self._pins['SENSE']} {reading_of(self._sense_volts)}")

    def sense_lamp(self, volts: float, delay_ms: float) -> None:
        """From now until power off the sensor sees the lamp: `volts` [V], `delay_ms` after the gate [ms]."""
        reading, delay_us = reading_of(volts), round(delay_ms * 1000)
        self._command(f"follow {self._pins['SENSE']} {self._pins['LAMP_GATE']} {reading} {delay_us}")

    def fit(self, lamp: Fitted | None) -> None:
        """Lamp, sensor, probe from now on (`bench/lamp.py`); None = none, and `sense` says what is seen."""
        with self.lock:
            self._lamp = lamp
            self._command(f"fit {json.dumps(lamp, separators=(',', ':'))}")

    def spoil_coil(self, fault: str) -> None:
        """What is wrong with the coil's legs or the white contact from now on; words in `box/coil.py`."""
        with self.lock:
            self._coil_fault = fault
            self._command(f"coil {fault}")

    def hang(self) -> None:
        """The processor never comes back from its present sleep; the hardware goes on."""
        self._command("hang")

    def pause(self, span_ms: float, kind: str = "") -> None:
        """The processor stands still so long [ms], now or where the firmware next brings about an event of
        this kind; the hardware goes on, as in a long garbage collection."""
        self._command(f"pause {round(span_ms * 1000)} {kind}")

    def wear_out(self, *blocks: int) -> None:
        """Of the whole flash these blocks keep nothing from now on, also after a power cut."""
        self._bad_blocks = blocks
        self._command(f"flash bad {' '.join(map(str, blocks))}")

    def tell_box(self, command: str) -> None:
        """Any command of the box (see `box`)."""
        self._command(command)

    # -- outputs -----------------------------------------------------------------------------------

    @property
    def gate(self) -> bool:
        """Is the lamp's gate open? The lamp burns only while the pump runs too."""
        return self._levels.get(ev.GATE) == 1

    @property
    def lamp(self) -> bool:
        """Does the lamp burn?"""
        return self.gate and self._levels.get(ev.PUMP) == 1

    @property
    def white(self) -> bool:
        """Is white light permitted?"""
        return self._levels.get(ev.WHITE) == 1

    @property
    def tone_hz(self) -> int:
        """The buzzer's note [Hz], 0 = silent."""
        return self._levels.get(ev.TONE, 0)

    @property
    def keyboard(self) -> bool:
        """Would Ctrl-C stop the firmware?"""
        return self._levels.get(ev.KEYBOARD, 1) == 1

    def screen_rows(self) -> list[list[bool]]:
        """The display: eight rows of 32 dots."""
        return self.panel.rows()

    def stream(self) -> BenchStream:
        """The cable to the computer."""
        return self._stream

    def forget_past(self) -> None:
        """What has happened is kept no longer, so that a long evening does not fill the memory; whoever
        listens has heard it. A referee can only be called before."""
        with self.lock:
            del self.events[:-1]
            self.heard.clear()

    # -- for the stream ----------------------------------------------------------------------------

    def give_bytes(self, data: bytes) -> None:
        """Bytes from the computer arrive now."""
        with self.lock:
            if not self._process:
                return
            self.heard.append((self.now_us, data))
            for ear in self.ears:
                ear(self.now_us, data)
            # A Ctrl-C where it is allowed empties what came before it and stops the program.
            if self.keyboard and b"\x03" in data:
                self._command("interrupt")
                return
            if self._process.has_pipes:
                self._process.link_in.write(data)
                self._process.link_in.flush()
                self._command("wake")
            else:
                self._command(f"bytes {data.hex()}")

    def stall(self, stalled: bool) -> None:
        """The cable takes nothing more from the firmware, or does again."""
        with self.lock:
            # Where the link has a pipe of its own it fills up by not being read.
            if self._process and not self._process.has_pipes:
                self._command(f"stall {stalled:d}")

    def take_bytes(self) -> bytes:
        """What the firmware has sent since the last look."""
        with self.lock:
            if self._process and self._process.has_pipes:
                return self._process.link_out.read() or b""
            return b""

    # ----------------------------------------------------------------------------------------------

    def _start(self, cause: int) -> None:
        self.end = None
        self.starts_us.append(self.now_us)
        heap_kib = self.options["heap_kib"]
        self._process = BoxProcess(self.interpreter, self._firmware, self._options(cause), heap_kib)
        self._hear(None)
        for number, level in self._inputs.items():
            self._command(f"pin {number} {level}")
        self._command(f"adc {self._pins['SENSE']} {reading_of(self._sense_volts)}")

    def _options(self, cause: int) -> dict[str, object]:
        pins = self._pins
        names = {"LAMP_GATE": ev.GATE, "LAMP_PUMP": ev.PUMP, "WHITE": ev.WHITE, "BUZZER": ev.TONE}
        return {
            "start_us": self.now_us,
            "ticks_start_us": self.options["ticks_start_us"],
            "names": {str(pins[pin]): name for pin, name in names.items()},
            "wakes": not self.options["polls"],
            "cause": cause,
            "unique": self._unique,
            "scratch": self._scratch,
            "bad_blocks": self._bad_blocks,
            "pins": {name: pins[name] for name in _LIGHT_PINS},
            "coil": self._coil_fault,
            "lamp": self._lamp,
            "spi": 0,
            "select": pins["SPI_CS"],
            "image": str((self.folder / "flash.img").resolve()),
            "folder": str((self.folder / "flash").resolve()),
            "heap_bytes": self.options["heap_kib"] * 1024,
            "locks_heap": self.options["locks_heap"],
        }

    def _stop(self) -> None:
        if self._process:
            self._process.kill()
            self._process = None
        for kind in (ev.GATE, ev.PUMP, ev.WHITE, ev.TONE):
            if self._levels.get(kind):
                self._note(Event(self.now_us, kind, "0"))
        self._levels.clear()

    def _run(
        self, until_us: int, wanted: Callable[[Event], bool] | None, kinds: tuple[str, ...] = ()
    ) -> Event | None:
        with self.lock:
            while self._process:
                self._process.send(f"go {until_us} {','.join(kinds)}")
                found = self._hear(wanted)
                if found or self.now_us >= until_us:
                    return found
            self.now_us = max(self.now_us, until_us)
            return None

    def _hear(self, wanted: Callable[[Event], bool] | None) -> Event | None:
        assert self._process
        found = None
        for line in self._process.lines():
            if line[0] == "@":
                self.now_us = int(line[1:])
                self._stream.collect()
                return found
            event = ev.parse(line)
            self.now_us = event.t_us
            self._note(event)
            if found is None and wanted and wanted(event):
                found = event
            if event.kind in ev.ENDS:
                break
        self._stream.collect()
        self._finish()
        return found

    def _finish(self) -> None:
        last = self.events[-1] if self.events else None
        end = last if last and last.kind in ev.ENDS else Event(self.now_us, ev.DIED, "the process has gone")
        self._stop()
        self.end = end
        if end.kind == ev.RESET:
            self._scratch = [int(word) for word in end.text.split()[1:]]
            self._start(_BITTEN)

    def _note(self, event: Event) -> None:
        if event.kind == ev.FRAME:
            self.panel.latch(bytes.fromhex(event.text))
        elif event.kind == ev.OUT:
            self._stream.feed(bytes.fromhex(event.text))
        elif event.kind in (ev.GATE, ev.PUMP, ev.WHITE, ev.TONE, ev.KEYBOARD, ev.WATCHDOG):
            self._levels[event.kind] = event.value
        self.events.append(event)
        for listener in self.listeners:
            listener(event)

    def _move_contacts(self, make: bool, rest: bool) -> None:
        closed = self._pins["PEDAL_CLOSED"]
        # The rest contact is the first to open and the last to close, as in a changeover switch.
        order = (("PEDAL_REST", rest), ("PEDAL_MAKE", make))
        for name, is_closed in order if make else reversed(order):
            number, level = self._pins[name], closed if is_closed else 1 - closed
            self._inputs[number] = level
            self._command(f"pin {number} {level}")

    def _command(self, line: str) -> None:
        with self.lock:
            if self._process:
                self._process.send(line)
