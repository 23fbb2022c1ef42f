"""The heap, locked whenever the app looks while its lamp is on: gate, stop, pedal, timers, sensor, result.

Only the firmware is held to it. What stands for the chip gets its memory, and so does the writing of a
record, which comes once the lamp is off. MicroPython alone can lock its heap.
"""

import keyboard
import machine
import micropython
import rp2
import world as _worlds

_is_locked = False
_write = None  # the app's own


def begin():
    """Put the lock in force: between the import of the firmware and its start."""
    global _write
    from controller.app import App

    machine.drive = _freed_2(machine.drive)
    machine.kbd_intr = _freed_1(keyboard.kbd_intr)
    machine.ADC.read_u16 = _freed_1(machine.ADC.read_u16)
    machine.PWM._tell = _freed_1(machine.PWM._tell)
    rp2.StateMachine.put = _freed_2(rp2.StateMachine.put)
    rp2.StateMachine.get = _freed_1(rp2.StateMachine.get)
    rp2.StateMachine.rx_fifo = _freed_1(rp2.StateMachine.rx_fifo)
    _write = App._write
    App._write = _write_freed
    App.urgent = _locked(App.urgent)


def _locked(urgent):
    def look(app, now_ms):
        if not app._burning:
            urgent(app, now_ms)
            return
        before = app.seq.state
        _lock(True)
        try:
            urgent(app, now_ms)
        except MemoryError:
            _unlock()
            _worlds.world.emit("greedy", before)
            raise
        finally:
            _unlock()
        if app.seq.state != before or not app._burning:
            _worlds.world.emit("locked", before + " > " + app.seq.state)

    return look


def _lock(wanted):
    global _is_locked
    if wanted and not _is_locked:
        micropython.heap_lock()
        _is_locked = True


def _unlock():
    global _is_locked
    was = _is_locked
    if was:
        micropython.heap_unlock()
        _is_locked = False
    return was


# One for each number of arguments: to collect any number of them would itself ask for memory.


def _freed_1(function):
    def freed(first):
        was = _unlock()
        try:
            return function(first)
        finally:
            _lock(was)

    return freed


def _freed_2(function):
    def freed(first, second):
        was = _unlock()
        try:
            return function(first, second)
        finally:
            _lock(was)

    return freed


def _write_freed(app, kind, value, note, now_ms):
    # Not made around the function as the others are: with so many arguments a closure asks for memory.
    was = _unlock()
    try:
        _write(app, kind, value, note, now_ms)
    finally:
        _lock(was)
