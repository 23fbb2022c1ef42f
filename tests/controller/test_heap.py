"""Nothing is allocated while the lamp is on: shown on MicroPython, under a locked heap."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from footlight.bench.process import BOX, MICROPYTHON, best_interpreter
from footlight.firmware_files import firmware_folders

CASE = Path(__file__).with_name("heap_case.py")


def test_the_lit_path_allocates_nothing():
    if best_interpreter() != MICROPYTHON:
        pytest.skip("no MicroPython for this machine: only it can lock its heap")
    env = os.environ | {"MICROPYPATH": os.pathsep.join([str(BOX), *map(str, firmware_folders()), ".frozen"])}
    command = [sys.executable, "-m", "micropython_unix", "-X", "heapsize=512k", str(CASE)]
    done = subprocess.run(command, env=env, capture_output=True, text=True, timeout=60)
    assert done.returncode == 0, done.stdout + done.stderr
    lines = done.stdout.splitlines()
    assert len(lines) == 10 and all(line.startswith("ok ") for line in lines), done.stdout
