# type: ignore - for MicroPython
"""What the chip does at a start: boot.py, then main.py; then comes the prompt."""

import sys


def _run(name):
    try:
        with open(name) as file:
            code = file.read()
    except OSError:
        return
    exec(code, {"__name__": "__main__"})


try:
    _run("boot.py")
    _run("main.py")
except Exception as error:  # noqa: BLE001 - as at the prompt
    sys.print_exception(error)
