"""Files to the board: copied beside the old ones, verified there by hash, then put in their places.

Nothing starts by itself between the first and the last renaming: `main.py` goes first and comes last. Cut off
anywhere, the board holds the old firmware, or a prompt with the lamp dark, and the same command goes on.
Of all folders only the firmware's own are touched, and a folder for what arrives; `data` is not.
"""

import hashlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from footlight.errors import act
from footlight.install.errors import InstallError
from footlight.install.image import BOOT, FOLDERS, MAIN
from footlight.install.prompt import Prompt

ARRIVALS = "arriving"
Progress = Callable[[int, int], None]

_BLOCK_BYTES = 4096
_SPARE_BYTES = 16_384

_HELPERS = """
import os, hashlib, binascii
def names(d):
    try:
        return [e[0] for e in os.ilistdir(d) if e[1] != 0x4000]
    except OSError:
        return []
def sha(p):
    h, b = hashlib.sha256(), bytearray(512)
    with open(p, 'rb') as f:
        n = f.readinto(b)
        while n:
            h.update(memoryview(b)[:n])
            n = f.readinto(b)
    return binascii.hexlify(h.digest()).decode()
def gone(p):
    try:
        os.remove(p)
    except OSError:
        pass
def folder(p):
    try:
        os.mkdir(p)
    except OSError:
        pass
"""
_HASHES = "for p in {}:\n print(sha(p), p)"


@dataclass
class Plan:
    """What has to change: path -> bytes to write; paths to remove."""

    write: dict[str, bytes] = field(default_factory=dict)
    remove: list[str] = field(default_factory=list)
    foreign: bool = False  # a main.py is there that belongs to something else

    @property
    def is_done(self) -> bool:
        """Is everything there already?"""
        return not self.write and not self.remove

    @property
    def room_bytes(self) -> int:
        """What it takes in whole blocks of the flash [bytes]."""
        return sum((len(data) // _BLOCK_BYTES + 1) * _BLOCK_BYTES for data in self.write.values())


def plan(prompt: Prompt, files: Mapping[str, bytes]) -> Plan:
    """Hold what is on the board against what is to be there."""
    prompt.run(_HELPERS)
    there = _hashes(prompt, "['boot.py','main.py']", *FOLDERS)
    made = Plan(foreign=MAIN in there and not any(path.startswith("controller/app.") for path in there))
    made.write = {path: data for path, data in files.items() if there.get(path) != _sha(data)}
    # A source that was left there would be taken before the compiled file of the same name.
    made.remove = sorted(set(there) - set(files))
    if not made.is_done:
        # It is out of the way while the others change.
        made.write[MAIN] = files[MAIN]
    return made


def carry_out(
    prompt: Prompt, made: Plan, files: Mapping[str, bytes], free_bytes: int, tell: Progress
) -> None:
    """Copy, verify, put in place, verify again. `tell` hears (bytes there, bytes in all)."""
    if made.is_done:
        _tidy(prompt)
        return
    _check_room(prompt, made, free_bytes)
    _copy(prompt, made, tell)
    _put_in_place(prompt, made)
    _tidy(prompt)
    left = plan(prompt, files)
    if not left.is_done:
        raise InstallError(f"{prompt.name}: {_listed(left)} did not stay as written; the flash may be worn")


def _check_room(prompt: Prompt, made: Plan, free_bytes: int) -> None:
    wanted = made.room_bytes + _SPARE_BYTES
    if free_bytes < wanted:
        raise InstallError(
            f"{prompt.name}: {free_bytes // 1024} KiB are free on the board, {wanted // 1024} are needed; "
            f"bring the journal home first ({act('collect')}), or clear a slot"
        )


def _copy(prompt: Prompt, made: Plan, tell: Progress) -> None:
    prompt.run(f"folder({ARRIVALS!r})")
    there = _hashes(prompt, "[]", ARRIVALS)
    done, total = 0, sum(map(len, made.write.values()))
    for path, data in made.write.items():
        arrival = _arrival(path)
        # What arrived whole before an interruption is not sent again.
        if there.get(arrival) != _sha(data):
            start = done
            prompt.write(arrival, data, lambda sent, start=start: tell(start + sent, total))
        done += len(data)
        tell(done, total)
    there = _hashes(prompt, "[]", ARRIVALS)
    for path, data in made.write.items():
        if there.get(_arrival(path)) != _sha(data):
            raise InstallError(f"{prompt.name}: {path} did not arrive as sent; repeat the command")


def _put_in_place(prompt: Prompt, made: Plan) -> None:
    # boot.py, which makes everything dark, is never missing: renaming replaces it at once.
    prompt.run("\n".join([f"gone({MAIN!r})", *(f"folder({part!r})" for part in FOLDERS)]))
    for path in sorted(made.write, key=lambda path: (path == MAIN, path != BOOT, path)):
        if path == MAIN:
            _remove(prompt, made.remove)
        prompt.run(f"os.rename({_arrival(path)!r},{path!r})")


def _tidy(prompt: Prompt) -> None:
    """Nothing of an installation that was cut off is left."""
    prompt.run(
        f"for n in names({ARRIVALS!r}):\n gone({ARRIVALS + '/'!r}+n)\n"
        f"if {ARRIVALS!r} in os.listdir():\n os.rmdir({ARRIVALS!r})\n"
        "if hasattr(os,'sync'):\n os.sync()"
    )


def _remove(prompt: Prompt, paths: list[str]) -> None:
    for path in paths:
        prompt.run(f"gone({path!r})")


def _hashes(prompt: Prompt, paths: str, *folders: str) -> dict[str, str]:
    """path -> SHA-256 of every file there is, of those paths and in those folders."""
    inside = "".join(f"+[{folder + '/'!r}+n for n in names({folder!r})]" for folder in folders)
    wanted = f"[p for p in {paths} if p in names('')]" + inside
    lines = prompt.run(_HASHES.format(wanted)).splitlines()
    return {path: sha for sha, _, path in (line.partition(" ") for line in lines if line)}


def _arrival(path: str) -> str:
    return f"{ARRIVALS}/{path.replace('/', '-')}"


def _sha(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _listed(made: Plan) -> str:
    return ", ".join([*made.write, *made.remove][:3])
