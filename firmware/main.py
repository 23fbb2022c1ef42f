"""Builds the controller's parts and runs the app. However that ends, the lamp is off."""

from controller import keyboard

# Before what takes a second to load: noise on the cable must not end that either.
keyboard.set_interrupt(False)

from controller import board, guard  # noqa: E402
from controller.app import App  # noqa: E402


def main():
    """Until a tool at the computer asks for the prompt, while idle."""
    if board.wants_prompt():
        board.screen().show("PROMPT", False, 1)
        print("pedal held at power-up: neither app nor watchdog is running")
        return
    parts, app = build()
    try:
        app.run()
    except Exception:
        # The watchdog goes on, and starts everything anew; the next start tells why.
        parts.guard.note(guard.EXCEPTION, 0)
        raise
    else:
        parts.guard.stop()
    finally:
        parts.lamp.dark()
        parts.sound.quiet()
        parts.white(0)
        keyboard.set_interrupt(True)


def build():
    """The parts and the app that works with them."""
    try:
        parts = board.build()
        return parts, App(parts)
    except Exception:
        # No watchdog runs yet, and on purpose none is started: the next start would most likely end here too.
        # It stays dark, says so, and leaves the prompt to whoever installs the firmware again.
        board.dark()
        board.screen().show("ERROR", False, 1)
        raise


if __name__ == "__main__":
    main()
