"""`footlight bench` as a person and as a script use it: a process of its own, in a terminal or in pipes."""

import contextlib
import json
import os
import select
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.system.wires import tool

from footlight import examples

PRINT = examples.path("reversal-print")
COMMAND = [sys.executable, "-c", "from footlight.cli.main import run; run()", "bench"]
pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="pseudo-terminals and signals of Unix")


class Running:
    """The command under way, with what it has written so far."""

    def __init__(self, process: subprocess.Popen[bytes], read: int, write: int) -> None:
        self.process = process
        self.text = ""
        self._read, self._write = read, write

    def type(self, keys: str) -> None:
        os.write(self._write, keys.encode())

    def wait_for(self, wanted: str, limit_s: float = 20) -> str:
        """All that has come, once `wanted` is in what came since the last wait."""
        until_s = time.monotonic() + limit_s
        fresh = ""
        while wanted not in fresh:
            left_s = until_s - time.monotonic()
            assert left_s > 0 and select.select([self._read], [], [], left_s)[0], (
                f"no {wanted!r} in {fresh!r}"
            )
            data = os.read(self._read, 65_536)
            assert data, f"ended without {wanted!r}: {fresh!r}"
            fresh += data.decode(errors="replace")
        self.text += fresh
        return fresh

    def ends(self, limit_s: float = 10) -> int:
        """Its exit code; what it still writes is read meanwhile."""
        until_s = time.monotonic() + limit_s
        while self.process.poll() is None and time.monotonic() < until_s:
            if select.select([self._read], [], [], 0.05)[0]:
                with contextlib.suppress(OSError):
                    self.text += os.read(self._read, 65_536).decode(errors="replace")
        return self.process.wait(1)


def _environment(home: Path) -> dict[str, str]:
    env = {key: value for key, value in os.environ.items() if not key.startswith("FOOTLIGHT_")}
    return env | {"HOME": str(home), "XDG_DATA_HOME": str(home / "data"), "TERM": "xterm-256color"}


@contextlib.contextmanager
def in_pipes(home: Path, *arguments: object) -> Iterator[Running]:
    """The bench as a script runs it."""
    process = subprocess.Popen(
        [*COMMAND, *map(str, arguments)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        env=_environment(home) | {"PYTHONUNBUFFERED": "1"},
    )
    assert process.stdin and process.stdout
    try:
        yield Running(process, process.stdout.fileno(), process.stdin.fileno())
    finally:
        process.kill()
        process.communicate()


@contextlib.contextmanager
def in_terminal(home: Path, *arguments: object) -> Iterator[Running]:
    """The bench as a person runs it, in a terminal of 110 columns and 32 lines."""
    import fcntl
    import struct
    import termios

    master, slave = os.openpty()
    fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 32, 110, 0, 0))
    before = termios.tcgetattr(slave)
    process = subprocess.Popen(
        [*COMMAND, *map(str, arguments)],
        stdin=slave,
        stdout=slave,
        stderr=slave,
        env=_environment(home),
        start_new_session=True,
        preexec_fn=lambda: fcntl.ioctl(0, termios.TIOCSCTTY, 0) and None,
    )
    try:
        yield Running(process, master, master)
        assert termios.tcgetattr(slave) == before, "the terminal was not put back"
    finally:
        process.kill()
        process.wait()
        os.close(master)
        os.close(slave)


def children_of(pid: int) -> list[int]:
    """Processes that this one started and that are still there."""
    found = subprocess.run(
        ["ps", "-o", "pid=", "--ppid", str(pid)], capture_output=True, text=True, check=False
    )
    return [int(word) for word in found.stdout.split()]


def is_there(pid: int) -> bool:
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    return True


def gone(pids: list[int], limit_s: float = 5) -> bool:
    until_s = time.monotonic() + limit_s
    while any(map(is_there, pids)) and time.monotonic() < until_s:
        time.sleep(0.05)
    return not any(map(is_there, pids))


def test_a_script_arms_a_sequence_and_other_commands_see_it(tmp_path: Path):
    with in_pipes(tmp_path, PRINT, "--json", "--speed", "5") as bench:
        facts = json.loads(bench.wait_for("\n").split("\n")[0])
        bench.wait_for('"PRINT"')
        bench.type("long\n")
        bench.wait_for('"NR 1"')
        time.sleep(0.3)
        bench.type("long\n")
        bench.wait_for("arm, sheet 1")
        time.sleep(0.3)
        bench.type("tap\n")
        bench.wait_for("begin, step 1 first developer")
        bench.wait_for('"agitate"')
        said = tool(
            "watch",
            "--once",
            "--yes",
            "--port",
            facts["port"],
            "--notebook",
            facts["notebook"],
            home=tmp_path,
        )
        assert said.code == 0
        assert "sheet 1, step 1 of 13: first developer" in said.out
        home = tool("collect", "--port", facts["port"], "--notebook", facts["notebook"], home=tmp_path)
        assert home.code == 0
        bench.type("end\n")
        assert bench.ends() == 0


def test_it_is_drawn_in_a_terminal_and_ends_at_q(tmp_path: Path):
    with in_terminal(tmp_path, PRINT) as bench:
        shown = bench.wait_for("fogs paper")
        for words in ("paper", "running", "lamp dark", "white light locked", "foot up", "--port"):
            assert words in shown
        bench.type(" ")
        bench.wait_for("foot DOWN")
        bench.type(" ")
        bench.wait_for("foot up")
        bench.type("+")
        bench.wait_for("×2")
        bench.type("p")
        bench.wait_for("POWER OFF")
        bench.type("q")
        assert bench.ends() == 0


def test_press_and_release_where_the_terminal_tells_them(tmp_path: Path):
    with in_terminal(tmp_path, PRINT) as bench:
        bench.wait_for("fogs paper")
        bench.type("\x1b[32;1:1u\x1b[32;1:2u")
        bench.wait_for("foot DOWN")
        bench.type("\x1b[32;1:3u")
        bench.wait_for("foot up")
        bench.type("\x1b[99;5u")
        assert bench.ends() == 0


@pytest.mark.parametrize("keys", ["q", "\x03"])
def test_no_process_is_left_and_the_terminal_is_put_back(tmp_path: Path, keys: str):
    with in_terminal(tmp_path, PRINT) as bench:
        bench.wait_for("fogs paper")
        children = children_of(bench.process.pid)
        assert children
        bench.type(keys)
        assert bench.ends() == 0
        assert gone(children)


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP, signal.SIGKILL])
def test_no_process_is_left_after_any_signal(tmp_path: Path, number: signal.Signals):
    with in_pipes(tmp_path, PRINT, "--plain") as bench:
        bench.wait_for("display")
        children = children_of(bench.process.pid)
        assert children
        bench.process.send_signal(number)
        assert bench.ends() == (-9 if number == signal.SIGKILL else 0)
        assert gone(children)


def test_the_flash_is_kept_and_shipped_examples_only_fill_an_empty_controller(tmp_path: Path):
    first = tool("bench", PRINT, "--plain", "--for", "0", home=tmp_path)
    again = tool("bench", "--plain", "--for", "0", home=tmp_path)
    assert (first.code, again.code) == (0, 0)
    assert "PRINT is in slot 1" in first.err
    assert "is in slot" not in again.err
    fresh = tool("bench", "--plain", "--for", "0", "--folder", tmp_path / "fresh", home=tmp_path)
    assert [title in fresh.err for title in ("FLASH", "PRINT", "STRIP")] == [True] * 3


def test_tcp(tmp_path: Path):
    with in_pipes(tmp_path, PRINT, "--json", "--tcp") as bench:
        address = json.loads(bench.wait_for("\n").split("\n")[0])["port"]
        assert address.startswith("socket://127.0.0.1:")
        said = tool("slots", "--port", address, home=tmp_path)
        assert said.code == 0
        assert "PRINT" in said.out


def test_two_benches_in_one_folder_are_refused_in_one_line(tmp_path: Path):
    with in_pipes(tmp_path, PRINT, "--plain") as bench:
        bench.wait_for("port")
        said = tool("bench", "--plain", "--for", "1", home=tmp_path)
        assert said.code != 0
        assert said.err.count("\n") == 1
        assert "another bench is running there" in said.err
        assert bench.process.poll() is None


def test_a_folder_that_cannot_be_made_is_one_clear_line(tmp_path: Path):
    (tmp_path / "file").touch()
    said = tool("bench", "--plain", "--for", "1", "--folder", tmp_path / "file" / "under", home=tmp_path)
    assert said.code != 0
    assert said.err.count("\n") == 1
    assert "name another folder" in said.err


def test_a_faulty_file_starts_nothing(tmp_path: Path):
    faulty = tmp_path / "faulty.toml"
    faulty.write_text('title = "X"\ntitel = "Y"\n')
    said = tool("bench", faulty, "--plain", "--for", "1", home=tmp_path)
    assert said.code != 0
    assert "faulty.toml" in said.err
    assert not (tmp_path / "data" / "footlight" / "bench").exists()
