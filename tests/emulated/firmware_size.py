"""How much flash the installed firmware takes, compiled."""

from pathlib import Path

from footlight.install import image

FIRMWARE = Path(__file__).parents[2] / "firmware"
# MicroPython runs these two by name, from source.
BY_NAME = (image.BOOT, image.MAIN)


def sources() -> list[Path]:
    """Every file that is installed compiled."""
    return sorted(FIRMWARE.glob("*/*.py"))


def files() -> int:
    """How many they are."""
    return len(sources())


def compiled(source: Path) -> bytes:
    """A file of the firmware as bytecode, as it is installed."""
    return image.compiled(source.relative_to(FIRMWARE).as_posix(), source)


def mpy_bytes() -> int:
    """All of it [bytes]."""
    return sum(len(compiled(source)) for source in sources())
