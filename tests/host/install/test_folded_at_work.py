"""The folded firmware at work: the core's cases and a whole print go as they do with the sources."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from tests.controller.stage import send
from tests.core.test_core import CASES, MICROPYTHON
from tests.core.test_core import HERE as CORE_TESTS
from tests.host.install.folded_firmware import FIRMWARE, SOURCES, USERS
from tests.system.test_golden_print import GOLDEN, moves

from footlight.bench import Bench
from footlight.bench import process as interpreters
from footlight.firmware_files import firmware_folders
from footlight.install import image
from footlight.install.folding import folded


@pytest.fixture(scope="module")
def core(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The core and its cases, folded together -> the folder of what Python runs; beside it, MicroPython's."""
    folder = tmp_path_factory.mktemp("core")
    cases = {path.name: path.read_text("utf-8") for path in CORE_TESTS.glob("[!t]*.py")}
    shutil.copytree(GOLDEN, folder / "golden")
    made = folded(SOURCES | cases, USERS)
    for path, text in made.items():
        for place in ("python", "micropython"):
            (folder / place / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / "python" / path).write_text(text, "utf-8")
        if path in CASES or not image.compiled("none", ""):
            (folder / "micropython" / path).write_text(text, "utf-8")
        else:
            (folder / "micropython" / path).with_suffix(".mpy").write_bytes(image.compiled(path, text))
    return folder


def said(command: list[str], folder: Path, name: str, variable: str, paths: list[Path]) -> list[str]:
    places = [*map(str, paths), *([".frozen"] if variable == "MICROPYPATH" else [])]
    done = subprocess.run(
        [*command, str(folder / name)],
        cwd=folder,
        env=os.environ | {variable: os.pathsep.join(places)},
        capture_output=True,
        text=True,
        timeout=300,
    )
    assert done.returncode == 0, done.stdout[-2000:] + done.stderr[-2000:]
    return done.stdout.splitlines()


@pytest.mark.parametrize("name", CASES)
def test_a_case_of_the_core_says_the_same_of_the_folded_core(core: Path, name: str):
    wanted = said([sys.executable], CORE_TESTS, name, "PYTHONPATH", [CORE_TESTS, FIRMWARE])
    assert said([sys.executable], core / "python", name, "PYTHONPATH", [core / "python"]) == wanted
    assert wanted and all(line.startswith("ok ") for line in wanted)
    if MICROPYTHON is None:
        pytest.skip("no MicroPython for this machine: the case was run on CPython only")
    folder = core / "micropython"
    assert said([MICROPYTHON, "-X", "heapsize=256k"], folder, name, "MICROPYPATH", [folder]) == wanted


@pytest.mark.skipif(
    interpreters.best_interpreter() != interpreters.MICROPYTHON or not image.compiled("none", ""),
    reason="no MicroPython, or no cross-compiler, for this machine",
)
def test_a_whole_print_is_the_same_to_the_millisecond(tmp_path: Path):
    """What is installed, run on the bench, does at every moment what the sources do (see `tests/golden`)."""
    installed = tmp_path / "installed"
    for path, data in image.image(6).items():
        (installed / path).parent.mkdir(parents=True, exist_ok=True)
        (installed / path).write_bytes(data)
    # The bench reads the pins itself.
    shutil.copy(FIRMWARE / "controller" / "pins.py", installed / "controller" / "pins.py")
    assert printed(tmp_path / "one", [installed]) == printed(tmp_path / "other", firmware_folders())


def printed(folder: Path, firmware: list[Path]) -> list[tuple[int, str, str]]:
    """Everything that happens in a whole print."""
    with Bench(folder, interpreters.MICROPYTHON, firmware=firmware) as bench:
        bench.switch_on()
        send(bench, json.loads((GOLDEN / "print.json").read_text("utf-8")))
        for ms, down in moves():
            bench.run_until(ms)
            bench.contacts(down, not down)
        bench.run_for(1_000)
        return [(event.t_us, event.kind, event.text) for event in bench.events]
