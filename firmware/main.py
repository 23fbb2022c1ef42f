"""Builds the controller's parts and runs the app. However that ends, the lamp is off."""

from controller import board, guard
from controller.app import App


def main():
    """Until Ctrl-C while idle, or until the computer asks for the prompt."""
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
    except KeyboardInterrupt:
        parts.guard.stop()
        raise
    else:
        parts.guard.stop()
    finally:
        parts.lamp.dark()
        parts.sound.quiet()
        parts.white(0)
        parts.keyboard(True)


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
