"""Files that somebody else made, or that a bad disk did: one clear line, nothing executed, nothing lost."""

import json
import os
import sqlite3
import struct
import time
import zlib
from pathlib import Path

import pytest
from tests.hostile.typing_in import typed

DEEP = 100_000
ESCAPES = "a\x1b]0;owned\x07\x1b[2J\x9b31m\u202eevil\u2066\r\x00"


def json_with(**tables: object) -> bytes:
    return json.dumps({"format": "footlight notebook", "version": 99, "tables": tables}).encode()


EXPORTS = {
    "nothing": b"",
    "zeros": bytes(1000),
    "noise": bytes(range(256)) * 40,
    "deep lists": b"[" * DEEP,
    "deep objects": b'{"tables":' * DEEP,
    "a huge number": b'{"format": "footlight notebook", "version": ' + b"9" * 5000 + b"}",
    "infinity": b'{"format": "footlight notebook", "version": 1e999, "tables": {}}',
    "another version": json_with(),
    "half a character": b'{"format": "\xff\xfe"}',
    "a lone surrogate": b'{"format": "\\ud800", "version": "\\ud800", "tables": {}}',
    "escapes": json.dumps({"format": "footlight notebook", "version": ESCAPES, "tables": {}}).encode(),
    "tables by no name": json.dumps(
        {"format": "footlight notebook", "version": 1, "tables": {"x; DROP TABLE runs": [{ESCAPES: 1}]}}
    ).encode(),
    "a list": b"[1, 2]",
    "tables that are text": b'{"format": "footlight notebook", "version": 1, "tables": "all"}',
}


@pytest.mark.parametrize("name", EXPORTS)
def test_an_export_that_is_none(tmp_path: Path, name: str):
    file, book = tmp_path / "e.json", tmp_path / "new.sqlite"
    file.write_bytes(EXPORTS[name])
    done = typed("restore", file, "--notebook", book)
    assert done.is_clean() and done.is_one_line(), done
    assert not book.exists() or book.stat().st_size > 0


def newest_export(tmp_path: Path) -> dict:
    """A true one, to be spoilt."""
    from footlight.notebook.book import notebook

    with notebook(tmp_path / "true.sqlite", writing=True):
        pass
    assert typed("export", tmp_path / "true.json", "--notebook", tmp_path / "true.sqlite").code == 0
    return json.loads((tmp_path / "true.json").read_text("utf-8"))


BAD_ROWS = {
    "huge": {"id": "c" * 10, "first_seen_unix_s": 10**30},
    "wrong kind": {"id": ["x"], "first_seen_unix_s": {}},
    "escapes": {ESCAPES: 1},
    "no row": "row",
}


@pytest.mark.parametrize("name", BAD_ROWS)
def test_rows_that_do_not_fit(tmp_path: Path, name: str):
    found = newest_export(tmp_path)
    found["tables"]["controllers"] = [BAD_ROWS[name]]
    (tmp_path / "e.json").write_text(json.dumps(found), encoding="utf-8")
    done = typed("restore", tmp_path / "e.json", "--notebook", tmp_path / "b.sqlite")
    assert done.is_clean() and done.is_one_line(), done


def other_database(path: Path) -> None:
    """SQLite, but with a trigger and a view instead of a notebook."""
    with sqlite3.connect(path) as connection:
        connection.executescript("CREATE TABLE sheets (id); CREATE VIEW runs AS SELECT 1 AS x;")
    connection.close()


def spoilt(path: Path) -> None:
    """A notebook with noise in its middle."""
    from footlight.notebook.book import notebook

    with notebook(path, writing=True):
        pass
    data = bytearray(path.read_bytes())
    data[4096 : 4096 * 6] = bytes(range(256)) * 80
    path.write_bytes(data)


NOTEBOOKS = {
    "text": lambda path: path.write_text("no notebook\n" * 1000),
    "noise": lambda path: path.write_bytes(os.urandom(20_000)),
    "header alone": lambda path: path.write_bytes(b"SQLite format 3\0"),
    "header and noise": lambda path: path.write_bytes(b"SQLite format 3\0" + os.urandom(8_000)),
    "another program's": other_database,
    "spoilt": spoilt,
    "a folder": lambda path: path.mkdir(),
    "a link to itself": lambda path: path.symlink_to(path),
    "a link to nothing": lambda path: path.symlink_to(path.parent / "none" / "x"),
    "a pipe": os.mkfifo,
    "a device": lambda path: path.symlink_to("/dev/zero"),
}
READERS = (["sheets"], ["sheet", "1"], ["search", "x"], ["undo"], ["write", "1", "note"], ["backup", "COPY"])


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="files of POSIX")
@pytest.mark.parametrize("words", READERS, ids=lambda words: words[0])
@pytest.mark.parametrize("name", NOTEBOOKS)
def test_a_notebook_that_is_none(tmp_path: Path, name: str, words: list[str]):
    book = tmp_path / "n.sqlite"
    NOTEBOOKS[name](book)
    before = book.read_bytes() if book.is_file() and name != "a device" else None
    begun_s = time.monotonic()
    rest = [str(tmp_path / "copy.sqlite") if word == "COPY" else word for word in words]
    done = typed(*rest, "--notebook", book)
    assert time.monotonic() - begun_s < 10
    # Noise in pages that a command does not look at is not noticed by it.
    assert done.is_clean() and (done.is_one_line() or (name == "spoilt" and done.code == 0)), done
    assert before is None or book.read_bytes() == before, "what was there is still there"


def png(width: int, height: int, data: bytes) -> bytes:
    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", data) + chunk(b"IEND", b"")


def tiff(width: int, height: int) -> bytes:
    """The head of a grey TIFF of any size that it likes, with a few bytes of picture."""
    tags = [(256, 4, 1, width), (257, 4, 1, height), (258, 3, 1, 8), (259, 3, 1, 1), (262, 3, 1, 1)]
    tags += [(273, 4, 1, 200), (277, 3, 1, 1), (278, 4, 1, height), (279, 4, 1, 8)]
    body = b"".join(struct.pack("<HHII", *tag) for tag in tags)
    return (b"II*\0" + struct.pack("<IH", 8, len(tags)) + body + bytes(4)).ljust(300, b"\0")


SCANS = {
    "nothing": b"",
    "noise": os.urandom(5_000),
    "text": b"no scan",
    "tiff, absurd": tiff(4_000_000_000, 4_000_000_000),
    "tiff, wide": tiff(2_000_000_000, 1),
    "tiff, no size": tiff(0, 0),
    "tiff, cut off": tiff(500, 500)[:40],
    "png bomb": png(60_000, 60_000, zlib.compress(bytes(10_000_000), 9)),
    "png, absurd": png(2_147_483_647, 2_147_483_647, b""),
    "png, cut off": png(100, 100, zlib.compress(bytes(100))),
}


@pytest.mark.parametrize("name", SCANS)
def test_a_scan_that_is_none(tmp_path: Path, name: str):
    pytest.importorskip("tifffile")
    file = tmp_path / ("s.png" if "png" in name else "s.tif")
    file.write_bytes(SCANS[name])
    begun_s = time.monotonic()
    done = typed("read", "strip", file, "--notebook", tmp_path / "n.sqlite", "--doses", "4 s 5 s 6.3 s")
    assert time.monotonic() - begun_s < 20
    assert done.is_clean() and done.is_one_line(), done
