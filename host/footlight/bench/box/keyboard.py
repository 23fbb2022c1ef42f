"""The keyboard interrupt: which byte of the link stops the program, -1 for none."""

import micropython
import world as _worlds


def kbd_intr(byte):
    """As `micropython.kbd_intr`, and an event."""
    _worlds.world.emit("keyboard", "0" if byte < 0 else "1")
    micropython.kbd_intr(-1)


def begin():
    """Put the command of this module in force. The prompt has the interrupt on."""
    _worlds.world.commands["interrupt"] = _interrupt


def _interrupt(words):
    _worlds.world.raised = KeyboardInterrupt()
    _worlds.world.awake = True
