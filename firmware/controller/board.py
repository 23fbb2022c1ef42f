"""Builds the parts from the pins. Polarity lives here, and nowhere else: what the parts get is logical.

An active-low lamp relay cannot be built: reset and boot.py would light it. So its driver has no polarity.
"""

import binascii
import sys
import time

import machine
import rp2

from controller import (
    clock,
    display,
    guard,
    journal,
    lamp,
    legs,
    parts,
    pedal,
    pins,
    port,
    sound,
    store,
)
from footlight_core import const

_SPI_HERTZ = const(1_000_000)


def contact(number):
    """A contact of the pedal -> a callable that says whether it is closed."""
    pin = machine.Pin(number, machine.Pin.IN, machine.Pin.PULL_UP)
    return machine.Signal(pin, invert=not pins.PEDAL_CLOSED).value


def wants_prompt():
    """Held at power-up, the pedal asks for the prompt: neither app nor watchdog is started."""
    # Only then: a foot that is down while the watchdog starts everything anew asks for nothing.
    return machine.reset_cause() == machine.PWRON_RESET and contact(pins.PEDAL_MAKE)() == 1


def build():
    """Every part, wired."""
    ticking = clock.Clock(getattr(machine, "WAKES_ON_INPUT", False))
    return parts.Parts(
        clock=ticking,
        pedal=pedal.Pedal(contact(pins.PEDAL_MAKE), contact(pins.PEDAL_REST)),
        lamp=lamp.Lamp(rp2, machine.Pin, pins.LAMP_GATE, pins.LAMP_PUMP, pins.PEDAL_REST),
        display=screen(),
        sound=sound.Sound(machine.PWM(machine.Pin(pins.BUZZER), freq=1000, duty_u16=0)),
        store=store.Store(),
        journal=journal.Journal(ticking.now_ms),
        port=port.Port(sys.stdin.buffer, sys.stdout.buffer),
        guard=guard.Guard(),
        sense=machine.ADC(machine.Pin(pins.SENSE)).read_u16,
        legs=_legs(),
        white=machine.Signal(machine.Pin(pins.WHITE, machine.Pin.OUT, value=0)).value,
        identity=binascii.hexlify(machine.unique_id()).decode(),
    )


def dark():
    """Whatever can light or sound is low, however much was built."""
    for number in pins.SAFE_LOW:
        machine.Pin(number, machine.Pin.OUT, value=0)


def screen():
    """The display alone: it keeps what it was last told."""
    spi = machine.SPI(0, baudrate=_SPI_HERTZ, sck=machine.Pin(pins.SPI_SCK), mosi=machine.Pin(pins.SPI_MOSI))
    return display.Display(spi, machine.Pin(pins.SPI_CS, machine.Pin.OUT, value=1))


def _legs():
    pump = machine.Pin(pins.LAMP_PUMP, machine.Pin.OUT, value=0)
    return legs.Legs(
        machine.Pin(pins.LAMP_GATE, machine.Pin.OUT, value=0),
        lambda level: machine.Pin(pins.LAMP_PUMP, machine.Pin.OUT, value=level),
        lambda hertz, duty: machine.PWM(pump, freq=hertz, duty_u16=duty).deinit,
        machine.ADC(machine.Pin(pins.COIL_HIGH)).read_u16,
        machine.ADC(machine.Pin(pins.COIL_LOW)).read_u16,
        machine.Pin(pins.WHITE_READ, machine.Pin.IN),
        time.sleep_ms,
    )
