"""Runs every case of this folder on CPython and on MicroPython: no line may differ between them."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

HERE = Path(__file__).parent
FIRMWARE = HERE.parents[1] / "firmware"
CASES = sorted(path.name for path in HERE.glob("case_*.py"))
MICROPYTHON = shutil.which("micropython", path=str(Path(sys.executable).parent))


def _run(command: list[str], name: str, variable: str, tail: str = "") -> list[str]:
    env = os.environ | {variable: os.pathsep.join([str(HERE), str(FIRMWARE)]) + tail}
    done = subprocess.run([*command, name], cwd=HERE, env=env, capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stdout[-2000:] + done.stderr[-2000:]
    return done.stdout.splitlines()


def test_there_are_cases():
    assert len(CASES) >= 6


@pytest.mark.parametrize("name", CASES)
def test_case(name: str):
    here = _run([sys.executable], name, "PYTHONPATH")
    assert here and all(line.startswith("ok ") for line in here)
    if MICROPYTHON is None:
        pytest.skip("no MicroPython for this machine: the case was run on CPython only")
    there = _run([MICROPYTHON, "-X", "heapsize=320k"], name, "MICROPYPATH", ":.frozen")
    assert there == here
