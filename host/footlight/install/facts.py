"""What a board is and which MicroPython runs on it; and whether the firmware may be put there."""

from dataclasses import dataclass

from footlight.firmware_files import constants
from footlight.install.errors import BoardError
from footlight.install.prompt import Prompt

# Since then its boards share one USB stack, whose poll and back-pressure the port's code is written for
# (from memory of the release notes). Tried on 1.28.
LEAST = (1, 23)
PLATFORM = "rp2"
CHIP: str = constants("chip")["NAME"]

_HOW = "hold BOOTSEL while you plug it in, and copy the RPI_PICO image (.uf2) of MicroPython to its drive"
_LOOK = (
    "(lambda s,o:(s.implementation.name,tuple(s.implementation[1])[:3],s.platform,"
    "getattr(s.implementation,'_machine',''),getattr(s.implementation,'_mpy',0),"
    "(lambda v:v[0]*v[3])(o.statvfs('.'))))(__import__('sys'),__import__('os'))"
)


@dataclass(frozen=True)
class Facts:
    """`mpy`: version of compiled files that it loads, 0 for none."""

    name: str
    version: tuple[int, ...]
    platform: str
    machine: str
    mpy: int
    free_bytes: int

    @property
    def version_text(self) -> str:
        """As in 1.28.0."""
        return ".".join(map(str, self.version))


def look(prompt: Prompt) -> Facts:
    """Ask the board."""
    name, version, platform, machine, mpy, free_bytes = prompt.value(_LOOK)
    return Facts(name, tuple(version), platform, machine, mpy & 0xFF, free_bytes)


def check(facts: Facts, port: str) -> None:
    """Raises BoardError unless the firmware runs there."""
    if facts.name != "micropython":
        raise BoardError(f"{port}: {facts.name} runs there, not MicroPython; {_HOW}")
    if facts.platform != PLATFORM or CHIP not in facts.machine:
        board = facts.machine or facts.platform
        raise BoardError(f"{port}: this board is '{board}'; the firmware is made for the {CHIP}")
    if facts.version[:2] < LEAST:
        least = ".".join(map(str, LEAST))
        raise BoardError(f"{port}: MicroPython {facts.version_text} is too old, from {least} on; {_HOW}")
