"""Runs on MicroPython: from lamp on to the booked result nothing allocates, for the heap is locked.

Everything here is the real firmware but for the chip itself, which is silent and allocates nothing.
"""

# pyright: reportAttributeAccessIssue=false, reportMissingImports=false

import micropython

from controller.app import App
from controller.display import Display
from controller.guard import Guard
from controller.lamp import Lamp
from controller.legs import Legs
from controller.parts import Parts
from controller.pedal import Pedal
from controller.sound import Sound
from footlight_core import program
from footlight_core.sensor import Sensor


class Chip:
    """A state machine, a pin and a tone that keep quiet."""

    PULL_UP = PULL_DOWN = IN = OUT = 0

    def __init__(self, *args, **kwargs):
        self.words = 0
        self.left = -1

    def StateMachine(self, number):  # noqa: N802 - the chip's own name
        return self if number == 0 else Other()

    def DMA(self):  # noqa: N802 - the chip's own name
        return Other()

    def init(self, *args, **kwargs):
        self.words = 0
        self.left = -1

    def put(self, word):
        self.words += 1

    def active(self, on):
        pass

    def tx_fifo(self):
        return 0

    def rx_fifo(self):
        return 0 if self.left < 0 else 1

    def get(self):
        left, self.left = self.left, -1
        return left

    def freq(self, hertz):
        pass

    def duty_u16(self, duty):
        pass


class Other:
    """The countdown and what carries its end: they keep quiet too."""

    def __init__(self):
        self.counts = 0

    def init(self, *args, **kwargs):
        pass

    def pack_ctrl(self, **options):
        return 0

    def config(self, **options):
        pass

    def put(self, word):
        self.counts += 1

    def active(self, on):
        pass

    def tx_fifo(self):
        return 0

    def rx_fifo(self):
        return 0


class Clock:
    """Time as the case has it."""

    def now_ms(self):
        return now_ms[0]

    def ticks_us(self):
        return now_ms[0] * 1000

    def since_us(self, ticks):
        return now_ms[0] * 1000 - ticks

    def rest_until(self, due_ms):
        pass


class Greedy:
    """A port whose every look needs memory."""

    def pump(self, now_ms):
        bytearray(64)

    def read(self):
        return -1

    def due_ms(self):
        return -1


class Nothing:
    """Parts that no lit path may ask."""

    worn = False
    found = 0
    sensor = Sensor()

    def entries(self):
        return ((1, "ab" * 32, "PRINT"),)

    def load(self, slot, sha):
        return PROGRAM

    def room(self):
        return 9999

    def append(self, record, t_ms):
        pass

    def next_number(self):
        return 1

    def keep(self, ledger):
        pass


LIGHT = {"kind": "light", "name": "light", "show": "LIGHT", "time_ms": 20_000, "dead_ms": 50}
LAMP = {"name": "ENL", "cap_ms": 60_000, "window_ms": 300_000}
PROGRAM = program.check({"v": 1, "title": "P", "name": "p", "lamps": [LAMP], "steps": [LIGHT, LIGHT]})

chip = Chip()
foot = [0, 1]


def sense():
    """A level that moves as a lamp's does."""
    return 23_000 + now_ms[0] // 10 % 7 if app._lamp.lit() and nothing.sensor.lamps else 0


nothing = Nothing()
guard = Guard()
app = App(
    Parts(
        clock=Clock(),
        pedal=Pedal(lambda: foot[0], lambda: foot[1]),
        lamp=Lamp(chip, Chip, 2, 3, 12),
        display=Display(chip, chip.freq),
        sound=Sound(chip),
        store=nothing,
        journal=nothing,
        port=Greedy(),
        guard=guard,
        sense=sense,
        legs=Legs(lambda level: None, lambda level: None, None, lambda: 0, lambda: 0, lambda: 1, None),
        white=lambda level: None,
        identity="",
    )
)
written = [0]


def count_record(kind, value, note, now_ms):
    """A record is made once the lamp is off, and only then may memory be asked for."""
    written[0] += 1


app._write = count_record
now_ms = [0]


def pass_time(span_ms):
    """Turn the urgent part of the loop each 10 ms."""
    until_ms = now_ms[0] + span_ms
    while now_ms[0] < until_ms:
        now_ms[0] += 10
        app.urgent(now_ms[0])
        guard.feed_if_all_reported()


def step(down, span_ms):
    """Move the foot, then let time pass."""
    foot[0], foot[1] = (1, 0) if down else (0, 1)
    pass_time(span_ms)


def check(name, got, wanted):
    print("ok" if got == wanted else "NOT", name, got)


step(False, 100)
for span_ms in (1500, 1500, 200):
    step(True, span_ms)
    step(False, 800)
check("lit", app.seq.state, "lit")
micropython.heap_lock()
pass_time(3000)
step(True, 10)
chip.left = 1_600_000 - 1
step(True, 200)
step(False, 800)
micropython.heap_unlock()
check("held by a press", app.seq.state, "held")
check("words put: the time, the stop", chip.words, 2)
check("booked", app.seq.run.gate_ms, 20050 - 16000)
step(True, 200)
step(False, 500)
check("lit again", app.seq.state, "lit")
micropython.heap_lock()
pass_time(2000)
for _ in range(20):
    # Display and link ask for memory in vain: frame and reply are lost, the exposure is not.
    now_ms[0] += 100
    app._turn()
chip.left = (1 << 24) - 1
pass_time(100)
micropython.heap_unlock()
check("whole", (app.seq.state, app.seq.run.index), ("ready", 1))
nothing.sensor.learn("ENL", [24_080, 80, 0, 40, 1_050])
step(False, 800)
step(True, 200)
step(False, 300)
check("and again", app.seq.state, "lit")
micropython.heap_lock()
pass_time(3000)
dose = app.seq.run.dose
micropython.heap_unlock()
check("counted", (dose.how, 2_500 < dose.had_ms() < 3_300), ("counted", True))
micropython.heap_lock()
app._handle("trouble", 7, now_ms[0])
chip.left = 5
pass_time(20)
micropython.heap_unlock()
check("broken off by a fault", app.seq.state, "fault")
locked = False
micropython.heap_lock()
try:
    locked = len([now_ms]) > 1
except MemoryError:
    locked = True
micropython.heap_unlock()
check("the lock bites", locked, True)
