"""Which files a board gets, and that what is compiled does what the sources do."""

import json
import shutil
from pathlib import Path

import pytest
from tests.controller.stage import send
from tests.system.test_golden_print import GOLDEN, moves

from footlight.bench import Bench
from footlight.bench import process as interpreters
from footlight.firmware_files import firmware_folders
from footlight.install import image

FIRMWARE = Path(__file__).parents[3] / "firmware"
needs_compiler = pytest.mark.skipif(not image.compiled("none", ""), reason="no cross-compiler here")


@needs_compiler
def test_all_files_are_compiled_or_none():
    assert {Path(path).suffix for path in image.image(5)} == {".py"}
    compiled = image.image(6)
    assert {path for path in compiled if path.endswith(".py")} == {image.BOOT, image.MAIN}
    assert {path.rpartition(".")[0] for path in compiled} == {
        path.rpartition(".")[0] for path in image.sources()
    }


def test_sources_are_installed_as_they_are():
    assert image.image(5) == {path: file.read_bytes() for path, file in image.sources().items()}


@needs_compiler
def test_the_same_bytes_every_time():
    """An update copies what has another hash."""
    assert image.image(6) == image.image(6)


@pytest.mark.skipif(
    interpreters.best_interpreter() != interpreters.MICROPYTHON or not image.compiled("none", ""),
    reason="no MicroPython, or no cross-compiler, for this machine",
)
def test_a_whole_print_is_the_same_to_the_microsecond(tmp_path: Path):
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
