"""What was done to a bench by hand, with the bench's own times, and the flash as it lay there before: enough
to do it all again, to the microsecond. A tape is a folder; `python -m footlight.bench.tape FOLDER` plays it.
"""

import ast
import shutil
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any, TextIO

from footlight.bench.bench import Bench
from footlight.bench.referee import BreachError, watch

# Whatever reaches the controller from outside goes through one of these.
_INPUTS = ("switch_on", "cut_power", "contacts", "sense", "sense_lamp", "give_bytes", "stall")
_INPUTS += ("hang", "pause", "wear_out", "fit", "tell_box")
_FILE = "inputs"


def keep(bench: Bench, folder: Path) -> None:
    """Keep all that is done to a bench from now on, before it is first switched on; `folder` is made anew.

    What is done within the firmware's doings (`run_until_event` with kinds) cannot be kept: a tape knows
    times, and no places within one.
    """
    shutil.rmtree(folder, ignore_errors=True)
    _copy_flash(bench.folder, folder)
    tape = (folder / _FILE).open("w", encoding="utf-8", buffering=1)
    print(bench.options, file=tape)
    for name in _INPUTS:
        setattr(bench, name, _kept(bench, name, tape))


def play(folder: Path, work: Path, firmware: list[Path] | None = None, replay: str = "") -> Bench:
    """Do it all again in the folder `work`, before a referee -> the bench at the end, without power.

    `firmware`: as for Bench; the tool's own may have been changed since, and then other things happen.
    Raises BreachError, at the same microsecond.
    """
    _copy_flash(folder, work)
    lines = (folder / _FILE).read_text("utf-8").splitlines()
    options, *inputs = map(ast.literal_eval, lines)
    with Bench(work, firmware=firmware, **options) as bench:
        watch(bench, replay)
        for t_us, name, values, named in inputs:
            bench.run_until(t_us / 1000)
            getattr(bench, name)(*values, **named)
    return bench


def _kept(bench: Bench, name: str, tape: TextIO) -> Callable[..., None]:
    does = getattr(bench, name)

    def told(*values: Any, **named: Any) -> None:
        # Nobody lets time pass between the note and the deed.
        with bench.lock:
            print((bench.now_us, name, values, named), file=tape)
            does(*values, **named)

    return told


def _copy_flash(source: Path, target: Path) -> None:
    target.mkdir(parents=True, exist_ok=True)
    for path in (source / "flash.img", source / "flash"):
        if path.is_dir():
            shutil.copytree(path, target / path.name)
        elif path.exists():
            shutil.copy(path, target / path.name)


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as place:
        try:
            print(f"no breach in {play(Path(sys.argv[1]), Path(place)).now_us / 1_000_000:.6f} s")
        except BreachError as error:
            sys.exit(str(error))
