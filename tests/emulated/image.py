"""The files' part of a flash image: littlefs as stock MicroPython mounts it, with our firmware in it."""

from collections.abc import Mapping
from pathlib import Path

from littlefs import LittleFS
from tests.emulated.chip import BLOCK_BYTES, FILES_BLOCKS

from footlight.install import image as install_image

FIRMWARE = Path(__file__).parents[2] / "firmware"


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
    parts = install_image.compiled_parts()
    files = {"boot.py": (FIRMWARE / "boot.py").read_bytes(), "main.py": source.encode()}
    # The one line of the core that every part takes its numbers' `const` from.
    for module in (*modules, "footlight_core/__init__"):
        files[f"{module}.mpy"] = parts[f"{module}.mpy"]
    return file_system(files)


def firmware() -> dict[str, bytes]:
    """Everything that is installed: path -> content, compiled where MicroPython takes it so."""
    by_name = (install_image.BOOT, install_image.MAIN)
    return {name: (FIRMWARE / name).read_bytes() for name in by_name} | install_image.compiled_parts()
