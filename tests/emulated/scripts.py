"""Small programs for the emulated board: the firmware's own lamp.py under every load."""

# Lights of so many ms, one after the other; `load()` runs again and again while each is lit.
_LIGHTS = """
import gc, os, rp2, time
from machine import Pin, SPI
from controller import pins
from controller.lamp import Lamp
lamp = Lamp(rp2, Pin, pins.LAMP_GATE, pins.LAMP_PUMP, pins.PEDAL_REST)
{setup}
def load():
    {load}
load()
given = []
for ms in {lights}:
    gc.collect()
    lamp.start(ms)
    while True:
        gate_ms = lamp.read_gate_ms()
        if gate_ms >= 0:
            break
        load()
    given.append(gate_ms)
print("GIVEN", given, "DONE")
"""

_DISPLAY = """
from controller.display import Display
spi = SPI(0, baudrate=1_000_000, sck=Pin(pins.SPI_SCK), mosi=Pin(pins.SPI_MOSI))
display = Display(spi, Pin(pins.SPI_CS, Pin.OUT, value=1))
"""
_WRITE = """
def write():
    with open("burden", "w") as file:
        file.write("x" * 5000)
"""

LOADS = {
    "no load": ("", "time.sleep_ms(2)"),
    "display": (_DISPLAY, 'display.show("12.3", True, 2)'),
    "allocation": ("kept = []", "kept.append(bytearray(700)); len(kept) < 30 or kept.clear()"),
    "gc.collect": ("junk = [[n] for n in range(2000)]", "gc.collect()"),
    "usb": ("", 'print("y" * 60)'),
    "flash": (_WRITE, "write()"),
}


def lights(load: str, lights_ms: tuple[int, ...]) -> str:
    """The program that gives these lights under a load of LOADS."""
    setup, body = LOADS[load]
    return _LIGHTS.format(setup=setup, load=body, lights=lights_ms)


# One light, then whatever `rest` does; nobody looks at the lamp any more.
ONE_LIGHT = """
import machine, micropython, rp2, time
from machine import Pin
from controller import pins
from controller.lamp import Lamp
lamp = Lamp(rp2, Pin, pins.LAMP_GATE, pins.LAMP_PUMP, pins.PEDAL_REST)
lamp.start({gate_ms})
{rest}
"""

STUCK = "machine.disable_irq()\nwhile True:\n    pass"


def one_light(gate_ms: int, rest: str) -> str:
    """A light, and what the processor does meanwhile."""
    return ONE_LIGHT.format(gate_ms=gate_ms, rest=rest)


# What the traps of the lamp's program look like from Python.
TRAPS = """
import rp2, time
from machine import Pin
from controller import lamp as lamps, pins
lamp = lamps.Lamp(rp2, Pin, pins.LAMP_GATE, pins.LAMP_PUMP, pins.PEDAL_REST)
print("OPCODES", [word for word in lamps.exposure[0]])
def end():
    gate_ms = -1
    while gate_ms < 0:
        time.sleep_ms(1)
        gate_ms = lamp.read_gate_ms()
    return gate_ms
said = []
lamp.start(20); time.sleep_ms(8); lamp.stop(); lamp.stop(); said.append(end())
lamp.stop(); lamp._sm.put(7); lamp._sm.put(9); time.sleep_ms(3)
lamp.start(6); said.append(end())
lamp.start(4); time.sleep_ms(30); lamp.start(5); said.append(end())
lamp.start(50); time.sleep_ms(3); lamp.dark(); time.sleep_ms(3); said.append(lamp.read_gate_ms())
said.append(lamp.lit())
for wrong in (0, -1, lamps.CAP_MS + 1):
    try:
        lamp.start(wrong)
    except ValueError:
        said.append("refused")
lamp.start(3); said.append(end())
print("SAID", said, "DONE")
"""
