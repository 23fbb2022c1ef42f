"""A sequence file may be anything at all: it is refused in one printable line, soon, and nothing is run."""

import os
import time
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some
from tests.host.sequence.writing import FIX, HEAD, LIGHT, PAUSE, TRAY, write

from footlight import sequence
from footlight.errors import InputError

WHOLE = HEAD + TRAY + FIX + LIGHT + PAUSE

FILES = {
    "empty": b"",
    "picture": b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR" + bytes(range(256)),
    "zeros": bytes(1000),
    "json": b'{"v": 1, "title": "X"}',
    "page": b"<html><body>not found</body></html>",
    "huge": b'title = "' + b"x" * 100_000 + b'"',
    "long text": b'title = "' + b"x" * 50_000 + b'"',
    "deep lists": b"title = " + b"[" * 30_000,
    "deep tables": b"title = " + b"{a=" * 15_000,
    "deep keys": b"a" + b".a" * 20_000 + b" = 1",
    "deep keys in many lines": b"".join(b"k%d" % n + b".a" * 2_000 + b" = 1\n" for n in range(16)),
    "many tables": b"".join(b"[a%d]\n" % n for n in range(6_000)),
    "many digits": HEAD.encode() + b"sheets = " + b"9" * 30_000,
    "large number": HEAD.encode() + b"sheets = 99999999999999999999\n" + PAUSE.encode(),
    "infinite": HEAD.encode() + b"sheets = inf\n" + PAUSE.encode(),
    "not a number": HEAD.encode() + b"sheets = nan\n" + PAUSE.encode(),
    "date": HEAD.encode() + b"sheets = 2020-01-01\n" + PAUSE.encode(),
    "escape in value": HEAD.replace("a test", "a \\u001b[2Jtest").encode() + PAUSE.encode(),
    "escape in key": HEAD.encode() + b'"\\u001b[31mred" = 1\n' + PAUSE.encode(),
    "newline in name": HEAD.replace("a test", "a\\ntest").encode() + PAUSE.encode(),
    "right to left": HEAD.replace("a test", "a \\u202etest").encode() + PAUSE.encode(),
}


def refusal(path: Path) -> str:
    with pytest.raises(InputError) as caught:
        sequence.load(path)
    message = str(caught.value)
    assert message.isprintable() and len(message) < 500, message
    return message


@pytest.mark.parametrize("content", FILES.values(), ids=FILES.keys())
def test_foreign_file(tmp_path: Path, content: bytes):
    path = tmp_path / "test.toml"
    path.write_bytes(content)
    begun = time.monotonic()
    assert "test.toml" in refusal(path)
    assert time.monotonic() - begun < 5


@pytest.mark.parametrize(
    "content", [b"\x00\xff", b"[lamp", b"lamp = 3", b"[setup]\nx = 1", b"[lamp.a]\ncap = [[[]]]"]
)
def test_foreign_light_setups(tmp_path: Path, content: bytes):
    path = write(tmp_path, HEAD + LIGHT)
    (tmp_path / "light-setups.toml").write_bytes(content)
    assert "light-setups.toml" in refusal(path)


def test_folder(tmp_path: Path):
    assert "a folder or a device" in refusal(tmp_path)


def test_missing(tmp_path: Path):
    assert "no such file" in refusal(tmp_path / "test.toml")


def test_control_characters_in_the_path(tmp_path: Path):
    assert "\\x1b[2J" in refusal(tmp_path / "\x1b[2J.toml")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes on this system")
def test_pipe_does_not_wait(tmp_path: Path):
    os.mkfifo(tmp_path / "test.toml")
    assert "a device" in refusal(tmp_path / "test.toml")


def test_byte_order_mark_and_windows_line_ends(tmp_path: Path):
    path = write(tmp_path, WHOLE)
    path.write_bytes(b"\xef\xbb\xbf" + WHOLE.replace("\n", "\r\n").encode())
    assert len(sequence.load(path).steps) == 3


@pytest.mark.parametrize("length", range(0, len(WHOLE), 3))
def test_truncated(tmp_path: Path, length: int):
    """Cut anywhere, a file is either refused in one line or ends after a whole step."""
    path = write(tmp_path, WHOLE[:length])
    try:
        found = sequence.load(path)
    except InputError as error:
        assert str(error).isprintable() and "test.toml" in str(error)
    else:
        assert WHOLE[:length].rstrip().endswith('"') and len(found.steps) >= 1


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    place=some.integers(0, len(WHOLE) - 1), mess=some.text(min_size=1, max_size=4), cut=some.integers(0, 6)
)
def test_mutated(tmp_path: Path, place: int, mess: str, cut: int):
    """A file that a cat walked over: refused in one line, or a program that the controller takes."""
    text = WHOLE[:place] + mess + WHOLE[place + cut :]
    path = write(tmp_path, "")
    path.write_bytes(text.encode("utf-8", "surrogatepass"))
    try:
        compiled = sequence.compile(sequence.load(path))
    except InputError as error:
        assert str(error).isprintable() and len(str(error)) < 600
    else:
        assert compiled.data.isascii()
