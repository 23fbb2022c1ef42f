"""The predicted end of a counted light, in hardware: a second state machine counts down, and the word of its
end is carried into the lamp's queue, where any word ends the light.

No collection and no frame moves that edge. A new prediction replaces the count under way; once it has run
out it stays at `stay`. The lamp's own count goes on beside it, and is the cap.
"""

import rp2

from footlight_core import const

TYPE_CHECKING = False
if TYPE_CHECKING:
    # The words of the assembler, which `asm_pio` puts in place.
    from rp2.asm_pio import block, isr, jmp, label, mov, noblock, osr, pull, push, x, x_dec

_HERTZ = const(500_000)
_WORD = const(2)  # the size of a transfer: four bytes
_RX1_REQUEST = const(5)  # the chip's data sheet, 2.5.3.1: DREQ_PIO0_RX1


@rp2.asm_pio()
def countdown():
    """Five cycles a tick, as the lamp's. What it pushes is not 0, which the lamp would not heed."""
    pull(block)
    label("tick")
    mov(x, osr)
    jmp(x_dec, "on")
    mov(isr, x)
    push(noblock)
    label("stay")
    jmp("stay")
    label("on")
    pull(noblock)  # takes X, the count, when no new one came
    jmp("tick")[1]


class Countdown:
    """`lamp`: the state machine that a word ends. `count` allocates nothing."""

    def __init__(self, rp2, lamp):
        self._sm = rp2.StateMachine(1)
        self._lamp = lamp
        self._dma = rp2.DMA()
        self.rest()

    def arm(self, ticks):
        """End the light `ticks` of 10 us from now, unless another count comes."""
        self.rest()
        self._sm.init(countdown, freq=_HERTZ)
        while self._sm.tx_fifo():
            self._sm.exec("pull(noblock)")
        while self._sm.rx_fifo():
            self._sm.get()
        control = self._dma.pack_ctrl(size=_WORD, inc_read=False, inc_write=False, treq_sel=_RX1_REQUEST)
        self._dma.config(read=self._sm, write=self._lamp, count=1, ctrl=control, trigger=True)
        self._sm.put(ticks)
        self._sm.active(1)

    def count(self, ticks):
        """End it so many ticks from now instead."""
        # A count that has run out takes no word any more; a full queue would wait for ever.
        if self._sm.tx_fifo() == 0:
            self._sm.put(ticks)

    def rest(self):
        """Nothing is counted, nothing carried."""
        self._sm.active(0)
        self._dma.active(0)
