"""A run on the emulated chip, and one mishap in it: noise, a deaf computer, the plug, a hang, no power.

The board is started and armed once; each trial goes on from there in a process of its own, so that most cost
no start. What must hold is said in `docs/faults.md`; here the pin itself is looked at.
"""

import functools
import hashlib
import json
import os
import random
from collections.abc import Callable
from contextlib import suppress
from typing import Any

from tests.emulated import image
from tests.emulated.chip import BLOCK_BYTES, Chip
from tests.emulated.stage import GATE, PUMP, SPI, foot_down, foot_off

from footlight.link import journal, upload
from footlight.link.channel import Channel
from footlight_core import wire

LIGHT_MS, DEAD_MS = 900, 50
PLANNED_US = (LIGHT_MS + DEAD_MS) * 1000
EDGE_US = 3
BOOT_MS = 6_000
WATCHDOG_MS = 4_500
_LAMP = {"name": "ENL", "cap_ms": 60_000, "window_ms": 300_000}
_LIGHT = {"kind": "light", "name": "second", "show": "LIGHT", "time_ms": LIGHT_MS, "dead_ms": DEAD_MS}
_BATH = {"kind": "bath", "name": "fix", "show": "FIX", "time_ms": 60_000, "lift_ms": 1_000}
PROGRAM = {"v": 1, "title": "PRINT", "name": "a print", "lamps": [_LAMP], "steps": [_LIGHT, _LIGHT, _BATH]}
_PROBES = (b"\x03", b"\x03\x03", b"\x04", b"\r\x01", b"AT\r\n", b"\x00\xff", b"import machine\r\n")


class PowerCut(Exception):  # noqa: N818 - it is an event, no error
    """The power goes in the midst of whatever the chip does."""


class Trial:
    """The armed board, what its lamp did, and what is wrong with that."""

    def __init__(self, dice: random.Random) -> None:
        self.dice = dice
        self.chip = armed()
        self.gate = self.chip.watch(GATE)
        self.pump = self.chip.watch(PUMP)
        self.wrong: list[str] = []

    def expect(self, true: object, what: str) -> None:
        """Note what does not hold."""
        if not true:
            self.wrong.append(what)

    def light(self) -> None:
        """A tap, and the lamp is on."""
        edges = len(self.gate)
        foot_down(self.chip)
        self.chip.run_for(150)
        foot_off(self.chip)
        self.expect(self.chip.run_until(lambda: len(self.gate) > edges, 200), "a tap gave no light")

    def whole(self, light: int = 0) -> None:
        """The n-th light has had its very time."""
        self.chip.run_until(lambda: len(self.gate) >= 2 * light + 2, 2_000)
        edges = self.gate[2 * light : 2 * light + 2]
        spans = [(fall - rise) / 1000 for (rise, _), (fall, _) in zip(edges[::2], edges[1::2], strict=False)]
        self.expect(
            len(spans) == 1 and abs(spans[0] - PLANNED_US) <= EDGE_US,
            f"gate {spans}, planned {PLANNED_US} us",
        )

    def goes_on(self) -> None:
        """It is in the run still, answers, and lights by the foot; nothing was lit by anything else."""
        channel = Channel(self.chip.cable, clock=self.chip.cable.clock)
        channel.greet()
        self.expect(channel.ask("status")["state"] == "ready", "it does not wait for the second light")
        self.expect(len(self.gate) == 2 and not self.chip.resets, "a light or a reset that nobody asked for")
        self.light()
        self.whole(1)

    def starts_anew(self, chip: Chip) -> None:
        """Dark from its start, and every record is there; the bounds hold what the gate gave."""
        gate, pump = (self.gate, self.pump) if chip is self.chip else (chip.watch(GATE), chip.watch(PUMP))
        lit, pumped = len(gate), len(pump)
        channel = Channel(chip.cable, clock=chip.cable.clock)
        self.expect(chip.run_until(lambda: chip.cable.up, BOOT_MS), "it does not start")
        chip.run_for(2_000)
        channel.greet()
        status = channel.ask("status")
        self.expect(len(gate) == lit and len(pump) == pumped, "light after a start, with no foot")
        self.expect(status["found"] == 0, f"the journal was found {status['found']}")
        records = [entry.record or {} for entry in journal.read(channel, 1)]
        numbers = [record.get("n") for record in records]
        self.expect(numbers == list(range(1, len(numbers) + 1)), f"record numbers {numbers}")
        self._bounds(records, str(status["state"]))

    def _bounds(self, records: list[dict[str, Any]], state: str) -> None:
        cuts = [record for record in records if record["k"] == "cut"]
        self.expect(state == "broken" and cuts, f"after a cut: {state}, {len(cuts)} cuts told")
        gave = {(record["step"], record["n"]) for record in records if record["k"] == "gave"}
        ends_ns = [*[edge[0] for edge in self.gate[1::2]], self.chip.clock.nanos][: len(self.gate[::2])]
        given = [
            max(0, (end - rise) / 1e6 - DEAD_MS)
            for (rise, _), end in zip(self.gate[::2], ends_ns, strict=True)
        ]
        # Lights whose end was written have their own record; only the last one can be open.
        if cuts and len(given) > len(gave):
            least, most = cuts[-1]["least_ms"], cuts[-1]["most_ms"]
            self.expect(least - 1 <= given[-1] <= most + 1, f"gave {given[-1]} ms, told {least} to {most}")


def noise(trial: Trial) -> None:
    """Ctrl-C and what programs send that look for modems, at any instant of a light and around it."""
    for _ in range(trial.dice.randrange(1, 12)):
        data = trial.dice.choice(_PROBES) if trial.dice.random() < 0.7 else trial.dice.randbytes(40)
        trial.chip.after(trial.dice.uniform(1, 1_300), functools.partial(trial.chip.cable.write, data))
    trial.light()
    trial.whole()
    trial.chip.run_for(700)
    trial.chip.cable.take()
    trial.goes_on()


def deaf(trial: Trial) -> None:
    """The computer asks and asks and reads nothing; then it reads again."""
    trial.chip.after(trial.dice.uniform(1, 600), trial.chip.cable.stop_reading)
    for count in range(20):
        ask = {"jsonrpc": "2.0", "id": f"x.{count}", "method": "status", "params": {}}
        trial.chip.after(
            trial.dice.uniform(1, 1_200), functools.partial(trial.chip.cable.write, wire.frame(ask))
        )
    trial.light()
    trial.whole()
    trial.chip.run_for(700)
    trial.chip.cable.read_on()
    trial.chip.run_for(700)
    trial.chip.cable.take()
    trial.goes_on()


def plug(trial: Trial) -> None:
    """The plug out and in again, at any instant."""
    trial.chip.after(trial.dice.uniform(1, 1_200), trial.chip.cable.pull_out)
    trial.light()
    trial.whole()
    trial.chip.run_for(900)
    trial.expect(trial.chip.cable.up, "the port did not come back")
    trial.goes_on()


def hang(trial: Trial) -> None:
    """The processor stands still, lit or dark: the light ends on time, the watchdog bites, and it is dark."""
    trial.light()
    trial.chip.run_for(trial.dice.uniform(1, 1_200))
    trial.chip.cable.up = False
    trial.chip.stall(WATCHDOG_MS + 100)
    trial.expect(len(trial.chip.resets) == 1, f"{len(trial.chip.resets)} bites of the watchdog")
    trial.whole()
    trial.starts_anew(trial.chip)


def power(trial: Trial) -> None:
    """The power goes at any instant, also within a write to the flash, which is torn."""
    if trial.dice.random() < 0.5:
        _cut_in_write(trial, trial.dice.randrange(1, 6))
    else:
        trial.chip.after(trial.dice.uniform(1, 1_500), _cut)
    with suppress(PowerCut):
        trial.light()
        trial.chip.run_for(1_600)
    chip = Chip(trial.chip.flash())
    foot_off(chip)
    _let_display(chip)
    trial.starts_anew(chip)


def _cut() -> None:
    raise PowerCut


def _cut_in_write(trial: Trial, nth: int) -> None:
    left, flash = [nth], trial.chip.mcu.flash

    def before(opcode: int, command: bytes) -> None:
        left[0] -= 1
        if left[0]:
            return
        start = int.from_bytes(command[1:4], "big")
        if opcode == 0x02:  # a page is programmed in part
            done = command[4 : 4 + trial.dice.randrange(0, len(command) - 3)]
            for offset, byte in enumerate(done):
                flash[start + offset] &= byte
        else:  # an erase that did not end leaves anything
            flash[start : start + BLOCK_BYTES] = trial.dice.randbytes(BLOCK_BYTES)
        raise PowerCut

    trial.chip.before_flash = before


KINDS: tuple[Callable[[Trial], None], ...] = (noise, deaf, plug, hang, power)


@functools.cache
def armed() -> Chip:
    """A board with a run armed, the lamp's step ready."""
    chip = Chip(image.file_system(image.firmware()))
    foot_off(chip)
    _let_display(chip)
    chip.run_until(lambda: chip.cable.up, BOOT_MS)
    channel = Channel(chip.cable, clock=chip.cable.clock)
    channel.greet()
    data = wire.dumps(PROGRAM).encode()
    upload.send(channel, data, hashlib.sha256(data).hexdigest(), "PRINT", slot=1)
    for _ in range(2):
        foot_down(chip)
        chip.run_for(1_300)
        foot_off(chip)
        chip.run_for(900)
    chip.cable.take()
    return chip


def _let_display(chip: Chip) -> None:
    spi = chip.mcu.spi[SPI]
    spi.on_transmit = lambda _: spi.complete_transmit(0)


def trial(kind: Callable[[Trial], None], seed: int) -> list[str]:
    """One trial in a process of its own -> what is wrong."""
    armed()
    reader, writer = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reader)
        os.write(writer, json.dumps(_tried(kind, seed)).encode()[:60_000])
        os._exit(0)
    os.close(writer)
    with open(reader, "rb") as file:
        told = file.read()
    os.waitpid(child, 0)
    return json.loads(told) if told else [f"{kind.__name__} {seed}: the trial itself died"]


def _tried(kind: Callable[[Trial], None], seed: int) -> list[str]:
    one = Trial(random.Random(f"{kind.__name__} {seed}"))
    try:
        kind(one)
    except Exception as error:  # noqa: BLE001 - the parent process must hear of it, whatever it is
        one.wrong.append(f"{type(error).__name__}: {error}")
    return [f"{kind.__name__} {seed}: {wrong}" for wrong in one.wrong]
