"""Builds the box around the firmware and switches it on.

Run by MicroPython, or through `on_cpython`, with what the driver has to say in the environment:
FOOTLIGHT_BOX, a JSON object. What main.py may raise ends here, as an event.
"""

import json
import os
import sys

import chance
import channel
import coil
import fittings
import flash
import keyboard
import machine
import matrix
import watchdog
import world as worlds


def build(options, read_line, write):
    """Everything that is there before the firmware runs."""
    world = worlds.begin(read_line, write, options["start_us"])
    world.ticks_start_us = options["ticks_start_us"]
    chance.begin(bytes(options["unique"]) + str(options["start_us"]).encode())
    machine.begin()
    flash.begin(options["bad_blocks"])
    machine.kbd_intr = keyboard.kbd_intr
    keyboard.begin()
    machine.names.update({int(number): name for number, name in options["names"].items()})
    machine.WAKES_ON_INPUT = options["wakes"]
    machine.cause = options["cause"]
    machine.unique = bytes(options["unique"])
    watchdog.keep(options["scratch"])
    coil.begin(options["pins"], options["coil"])
    fittings.begin(options["pins"], options["lamp"])
    matrix.Matrix(options["spi"], options["select"])
    return world


def run_firmware(world, locks_heap=False):
    """What the chip does when it starts: boot.py, then main.py."""
    import boot  # noqa: F401 - it works by being run
    import main

    _tell_records(world)
    if locks_heap:
        import lock

        lock.begin()
    main.main()


def _tell_records(world):
    # The bench sees what is durable as soon as it is, and once; the firmware has no such ear.
    from controller.journal import Journal

    write = Journal._write
    last = [b""]

    def told(journal, line):
        write(journal, line)
        if line == last[0]:
            # An error came when it stood there already, and the journal has only found it again.
            return
        last[0] = line
        # Of one order on both interpreters; the newline and the check sum say nothing new.
        record = json.loads(line[:-9])
        fields = ['"%s":%s' % (key, json.dumps(record[key])) for key in sorted(record)]
        world.emit("record", "{" + ",".join(fields) + "}")

    Journal._write = told


def power_on(options, read_line, write, commands=()):
    """One life of the controller, from power on to its end. `commands`: (name, function) of the caller."""
    world = build(options, read_line, write)
    world.commands.update(commands)
    try:
        world.halt()
        if sys.implementation.name == "micropython":
            flash.mount(options["image"])
        else:
            flash.enter(options["folder"])
        run_firmware(world, options["locks_heap"])
        world.tell_what_is_seen()
        world.emit("prompt", "left")
    except worlds.PowerCut:
        pass  # the driver cut it, and knows
    except KeyboardInterrupt:
        world.emit("prompt", "interrupt")
    except SystemExit:
        world.emit("prompt", "exit")
    except BaseException as error:  # noqa: BLE001 - whatever it is, the driver must hear of it
        _show(error)
        world.tell_what_is_seen()
        _die(world, repr(error))
    world.flush()


def _die(world, text):
    # At the prompt now, with nobody to feed the watchdog: it bites, if it was ever started.
    world.emit("fell", text)
    if watchdog.is_running():
        world.hung = True
        try:
            world.sleep_us(0)
        except worlds.PowerCut:
            return
    world.emit("died", text)


def _show(error):
    if hasattr(sys, "print_exception"):
        sys.print_exception(error, sys.stderr)
    else:
        sys.excepthook(type(error), error, error.__traceback__)


if __name__ == "__main__":
    reader, writer = channel.open_channel()
    power_on(json.loads(os.getenv("FOOTLIGHT_BOX")), reader, writer)
