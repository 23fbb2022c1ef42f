"""Commands on a disk that loses power at the n-th time that something was to be durable."""

import atexit
import os
import shutil
import subprocess
import sys
import tempfile
from functools import cache
from pathlib import Path

import pytest

_RUN = "from footlight.cli.main import run; run()"


@cache
def shim() -> Path:
    """The library that counts; the test is skipped where none can be built or loaded."""
    compiler = shutil.which("cc")
    if compiler is None or not sys.platform.startswith("linux"):
        pytest.skip("no C compiler, or no Linux: a disk that stops cannot be had here")
    folder = Path(tempfile.mkdtemp(prefix="footlight-shim-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    library = folder / "stop_at_write.so"
    source = Path(__file__).with_name("stop_at_write.c")
    subprocess.run([compiler, "-shared", "-fPIC", "-o", library, source], check=True)
    return library


def footlight(book: Path, *words: str, stop_at: int = 0, count_to: Path | None = None) -> tuple[int, str]:
    """A command in a process of its own -> its exit code and all that it says."""
    more = {"LD_PRELOAD": str(shim())} if stop_at or count_to else {}
    more |= {"STOP_AT": str(stop_at)} if stop_at else {}
    more |= {"COUNT_TO": str(count_to)} if count_to else {}
    done = subprocess.run(
        [sys.executable, "-c", _RUN, *words],
        env=os.environ | {"FOOTLIGHT_NOTEBOOK": str(book)} | more,
        capture_output=True,
        text=True,
        timeout=60,
    )
    return done.returncode, done.stdout + done.stderr


def durable_writes(book: Path, *words: str) -> int:
    """How often a command makes something durable; it is carried out."""
    told = book.with_name("count")
    code, said = footlight(book, *words, count_to=told)
    assert code == 0, said
    return int(told.read_text())
