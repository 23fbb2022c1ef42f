"""The lamp's gate, timed by a PIO state machine: an exposure ends on time whatever the processor does.

One loop of five cycles at 500 kHz is a tick of 10 us. Every instruction of it side-sets *gate* and *pump*;
the pump, a square wave of 100 kHz, holds up the series element of the lamp's driver, so the relay can only
be drawn while an exposure is being counted. Every instruction outside the loop drives both low.

Five ways out of the loop, and what the state machine then pushes (ticks left, less one):

1. the count is done: -1;
2. the jmp pin is high (the pedal's rest contact is open, by a foot or a broken wire): what is left;
3. a word arrived (`stop`): what is left;
4. there was no tick to count: -1, with no edge at all;
5. the pedal was down at the start: all of it, with no edge at all.

It then stays at `stay`, and never goes back to `pull`: a word that is queued is never a further exposure.
A counted light ends by the third way: `countdown` sends the word, and the count here is its cap.
"""

import rp2

from controller.countdown import Countdown
from footlight_core import const

TYPE_CHECKING = False
if TYPE_CHECKING:
    # The words of the assembler, which `asm_pio` puts in place.
    from rp2.asm_pio import (
        block,
        in_,
        jmp,
        label,
        mov,
        noblock,
        not_x,
        osr,
        out,
        pin,
        pull,
        push,
        set,
        x,
        y,
        y_dec,
    )

TICKS_PER_MS = const(100)
# 24 bits of ticks are 167.77 s: more cannot be counted, whatever is put.
CAP_MS = const(167_000)
NEVER_MS = const(-1)
_HERTZ = const(500_000)
_MASK = const((1 << 24) - 1)


@rp2.asm_pio(
    sideset_init=(rp2.PIO.OUT_LOW, rp2.PIO.OUT_LOW),  # pyright: ignore[reportArgumentType] - not only lists
    out_shiftdir=rp2.PIO.SHIFT_RIGHT,
    in_shiftdir=rp2.PIO.SHIFT_LEFT,
)
def exposure():
    """Side-set bit 0 is the gate, bit 1 the pump."""
    pull(block).side(0)
    out(y, 24).side(0)
    set(x, 0).side(0)
    jmp(y_dec, "counts").side(0)
    jmp("end").side(0)  # 4
    label("counts")
    jmp(pin, "end").side(0)  # 5
    label("tick")
    pull(noblock).side(3)  # takes X, which is 0, when no word came
    mov(x, osr).side(3)
    jmp(not_x, "on").side(1)
    jmp("end").side(0)  # 3
    label("on")
    jmp(pin, "end").side(1)  # 2
    jmp(y_dec, "tick").side(1)  # 1
    label("end")
    in_(y, 24).side(0)
    push(noblock).side(0)
    label("stay")
    jmp("stay").side(0)


class Lamp:
    """Milliseconds outside, ticks only here. `stop`, `end_in` and `read_gate_ms` allocate nothing."""

    def __init__(self, rp2, pin_class, gate, pump, rest):
        self._pin = pin_class
        self._gate = gate
        self._pump = pump
        self._rest = rest
        self._sm = rp2.StateMachine(0)
        self._countdown = Countdown(rp2, self._sm)
        self._ticks = 0
        self._left = NEVER_MS
        self._lit = False
        self.dark()

    def start(self, gate_ms, end_ms=0):
        """Light for `gate_ms`, 1 to CAP_MS. With the pedal down there is no light at all.

        With `end_ms` it ends so soon already, and `end_in` may move that end, but none beyond `gate_ms`.
        Raises ValueError for any other time.
        """
        if not 1 <= gate_ms <= CAP_MS:
            raise ValueError("gate time %d ms; allowed 1 to %d" % (gate_ms, CAP_MS))
        self._left = NEVER_MS
        self._ticks = gate_ms * TICKS_PER_MS
        self._load()
        try:
            self._lit = True
            self._sm.put(self._ticks)
            if end_ms:
                self._countdown.arm(end_ms * TICKS_PER_MS)
            self._sm.active(1)
        except Exception:
            # Half begun, it would be taken for a light whose end is never read.
            self.dark()
            raise

    def stop(self):
        """End the exposure under way, if there is one."""
        # A word for a state machine that has ended stays in its queue; a second one could fill it.
        if self._lit and self._sm.tx_fifo() == 0:
            self._sm.put(1)

    def end_in(self, ticks):
        """A light that was started with an end ends so many ticks from now instead."""
        if self._lit:
            self._countdown.count(ticks)

    def lit(self):
        """Was an exposure started whose end has not been read?"""
        return self._lit

    def read_gate_ms(self):
        """How long the gate was high in the exposure that ended [ms, rounded], or NEVER_MS.

        It may be asked again, until the next start: an error on the way to whoever asked loses nothing.
        """
        # `get` waits for ever when there is nothing, and gives a word once.
        if self._lit and self._sm.rx_fifo():
            self._left, self._lit = self._sm.get(), False
        if self._left == NEVER_MS:
            return NEVER_MS
        left = (self._left + 1) & _MASK
        return (self._ticks - left + TICKS_PER_MS // 2) // TICKS_PER_MS

    def dark(self):
        """Gate and pump low, from any state. What was under way is lost."""
        # Standing still in mid-light leaves the gate's pin high; so the pins are taken back.
        self._countdown.rest()
        self._sm.active(0)
        self._pin(self._gate, self._pin.OUT, value=0)
        self._pin(self._pump, self._pin.OUT, value=0)
        self._left = NEVER_MS
        self._lit = False

    def _load(self):
        self._countdown.rest()
        self._sm.active(0)
        gate = self._pin(self._gate, self._pin.OUT, value=0)
        rest = self._pin(self._rest, self._pin.IN, self._pin.PULL_UP)
        self._sm.init(exposure, freq=_HERTZ, sideset_base=gate, jmp_pin=rest)
        # `restart` keeps the queues; a stale word would end the exposure, a stale result belie it.
        while self._sm.tx_fifo():
            self._sm.exec("pull(noblock)")
        while self._sm.rx_fifo():
            self._sm.get()
