"""The part of MicroPython's `rp2` that the lamp uses: state machines that behave as its programs, and DMA.

Not an emulator of PIO: the program itself is held against a PIO emulator elsewhere. This is what it does.
At 500 kHz a tick is five cycles, 10 us. A word is a count of 24 bits; while it runs, gate and pump are
up. It ends when the count does, at the next tick when the jmp pin (the pedal's rest contact) opens or any
word arrives; then both fall and the ticks that were left, less one, are pushed in 24 bits. It never goes
back for another word.

The countdown (the program without side-set) takes a word as its count, and any later word in its place; at
its end it pushes a word that is not 0 and stays there. DMA carries one word from there to the lamp.
"""

import machine as _machine
import world as _worlds

_CYCLES_PER_TICK = 5
_COUNT_MASK = (1 << 24) - 1
_FIFO_WORDS = 4
_RX_REQUEST = 4  # of the first state machine; the others follow


class PIO:
    """Names that programs are declared with."""

    OUT_LOW = 0
    OUT_HIGH = 1
    IN_LOW = 2
    IN_HIGH = 3
    SHIFT_LEFT = 0
    SHIFT_RIGHT = 1
    JOIN_NONE = 0
    JOIN_TX = 1
    JOIN_RX = 2

    def __init__(self, number=0):
        self._number = number

    def remove_program(self, program=None):
        """Nothing is held here."""


def asm_pio(**options):
    """Keep the declaration; the body is not run."""

    def declare(function):
        return (function, options)

    return declare


class DMA:
    """One transfer of one word, from one state machine to another."""

    def __init__(self):
        self._read = None

    def pack_ctrl(self, **options):
        """Of all controls only the pace is of interest, and that is the reading machine's."""
        return options

    def config(self, read=None, write=None, count=0, ctrl=None, trigger=False):
        """Carry `count` words."""
        paces = (False, False, _RX_REQUEST + read.number)
        if (ctrl["inc_read"], ctrl["inc_write"], ctrl["treq_sel"]) != paces or count != 1 or not trigger:
            raise NotImplementedError("only one word, at the pace of the machine that it comes from")
        self._read = read
        read.carry = self._carry
        self._write = write

    def active(self, on=None):
        """Is there a word to be carried yet? Or: none is."""
        if on is None:
            return self._read is not None
        if self._read:
            self._read.carry = None
            self._read = None
        return None

    def _carry(self, word):
        self.active(0)
        self._write.arrive(word)


class StateMachine:
    """Gate and pump of the lamp, or its countdown."""

    def __init__(self, number, program=None, freq=-1, **pins):
        self.number = number
        self.carry = None  # takes what is pushed next
        self._is_countdown = False
        self._tx = []
        self._rx = []
        self._listening = []
        self._active = False
        self._ended = False
        self._ending = False
        self._end_entry = None
        self._start_us = 0
        self._ticks = 0
        self._tick_us = 0
        self._gate = self._jmp = -1
        self._mute = False
        if number == 0:
            _worlds.world.commands["mute"] = self._fall_mute
        if program is not None:
            self.init(program, freq, **pins)

    def init(self, program, freq=-1, sideset_base=None, jmp_pin=None, **pins):
        """Load a program; the state machine stands still at its beginning."""
        # The queues stay as they are, as they do on the chip.
        self._active = self._ended = self._ending = False
        self._end_entry = None
        self._tick_us = _CYCLES_PER_TICK * 1_000_000 // freq
        self._is_countdown = sideset_base is None
        if self._is_countdown:
            return
        self._gate = sideset_base.number
        self._jmp = jmp_pin.number
        if self._jmp not in self._listening:
            self._listening.append(self._jmp)
            _machine.listen(self._jmp, self._jmp_moved)
        self._drive(0, 0)

    def active(self, on=None):
        """Run, or stand still. Standing still in mid-light leaves the gate's pin as it is."""
        if on is None:
            return self._active
        self._active = bool(on)
        if self._is_countdown:
            self._forget_count()
        if self._active:
            self._begin()
        elif self._end_entry:
            _worlds.world.drop(self._end_entry)
            self._end_entry = None
            self._drive(_machine.level_of(self._gate), 0)
        return None

    def put(self, word, shift=0):
        """A word: the count of an exposure, or the end of the one under way."""
        if self._is_countdown and self._end_entry:
            self._forget_count()
            self._ended = False
        if self._end_entry:
            # The program takes a word of 0 for none.
            if word:
                self._end_at_next_tick()
                self._outlast_tick()
        elif len(self._tx) == _FIFO_WORDS:
            raise RuntimeError("a full FIFO would wait for ever")
        else:
            self._tx.append((word << shift) & 0xFFFFFFFF)
            if self._active:
                self._begin()

    def arrive(self, word):
        """A word comes while the firmware may be asleep."""
        if self._end_entry:
            self._end_at_next_tick()
        else:
            self._tx.append(word)

    def get(self, buffer=None, shift=0):
        """The oldest word pushed."""
        if not self.rx_fifo():
            raise RuntimeError("an empty FIFO would wait for ever")
        return self._rx.pop(0) >> shift

    def rx_fifo(self):
        """How many words are there to get."""
        if self._ending:
            self._outlast_tick()
        return len(self._rx)

    def tx_fifo(self):
        """How many words wait."""
        return len(self._tx)

    def restart(self):
        """Clears no FIFO: as on the chip."""
        self._ended = False

    def exec(self, instruction):
        """Of all instructions, only the one that drains is used."""
        if instruction != "pull(noblock)":
            raise NotImplementedError(instruction)
        if self._tx:
            self._tx.pop(0)

    def _outlast_tick(self):
        # The firmware takes no time here; on the chip any call takes longer than the tick that ends a light.
        _worlds.world.spend_us(self._end_entry[0] - _worlds.world.now_us)

    def _begin(self):
        # A used program stays at its end; only `init` brings it back to the beginning.
        if self._ended or self._end_entry or not self._tx:
            return
        if self._is_countdown:
            ticks = self._tx.pop(0)
            self._end_entry = _worlds.world.after(ticks * self._tick_us, self._run_out)
            return
        self._ticks = self._tx.pop(0) & _COUNT_MASK
        self._start_us = _worlds.world.now_us
        if self._ticks == 0 or _machine.level_of(self._jmp):
            self._push(self._ticks)
            return
        self._drive(1, 1)
        self._end_entry = _worlds.world.after(self._ticks * self._tick_us, self._finish)

    def _forget_count(self):
        if self._end_entry:
            _worlds.world.drop(self._end_entry)
            self._end_entry = None

    def _run_out(self, _):
        self._end_entry = None
        self._ended = True
        if self.carry:
            self.carry(0xFFFFFFFF)
        else:
            self._rx.append(0xFFFFFFFF)

    def _jmp_moved(self, level):
        if level and self._end_entry:
            self._end_at_next_tick()

    def _end_at_next_tick(self):
        if self._ending:
            return
        passed_us = _worlds.world.now_us - self._start_us
        _worlds.world.drop(self._end_entry)
        self._ending = True
        self._end_entry = _worlds.world.after(self._tick_us - passed_us % self._tick_us, self._finish)

    def _finish(self, _):
        if not self._end_entry:
            return
        _worlds.world.drop(self._end_entry)
        end_us = self._end_entry[0]
        self._end_entry = None
        self._ending = False
        given = (end_us - self._start_us) // self._tick_us
        self._push(self._ticks - given)
        self._drive(0, 0)
        _worlds.world.awake = True

    def _push(self, left):
        self._ended = True
        if not self._mute:
            self._rx.append((left - 1) & _COUNT_MASK)
        self._mute = False

    def _fall_mute(self, words):
        # The word that tells of the next end is lost.
        self._mute = True

    def _drive(self, gate, pump):
        _machine.by_hand.discard(self._gate)
        _machine.by_hand.discard(self._gate + 1)
        _machine.drive(self._gate, gate)
        _machine.drive(self._gate + 1, pump)
