"""How much flash the installed firmware takes, compiled."""

import functools
from pathlib import Path

from footlight.install import image

FIRMWARE = Path(__file__).parents[2] / "firmware"
# MicroPython runs these two by name, from source.
BY_NAME = (image.BOOT, image.MAIN)


@functools.cache
def parts() -> dict[str, bytes]:
    """Every file that is installed compiled: path on the board -> bytecode."""
    return image.compiled_parts({name: (FIRMWARE / name).read_text("utf-8") for name in BY_NAME})


def mpy_bytes() -> int:
    """All of them [bytes]."""
    return sum(map(len, parts().values()))
