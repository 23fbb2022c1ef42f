"""The journal on a folder: numbers without gaps, what a power cut tears, what may be deleted, room.

The fault model's rows on power cuts and the flash, and I8: a prefix of what happened, every acknowledged
record there.
"""

import json
import os
from pathlib import Path

import pytest

from controller import files, journal
from controller.journal import Journal
from footlight_core import records
from footlight_core.duty import WINDOW_MS
from footlight_core.errors import Refusal, StorageError

BLOCK_BYTES = 4096


def end(run: int) -> dict[str, object]:
    return {"k": "end", "run": run, "sheet": 1, "how": "whole"}


def opened(now_ms: int = 5) -> Journal:
    return Journal(lambda: now_ms)


def fill(notes: Journal, count: int, first_run: int = 1) -> None:
    for run in range(first_run, first_run + count):
        notes.append(end(run), run * 10)


def segments(flash: Path) -> list[Path]:
    return sorted((flash / "journal").iterdir())


def numbers(notes: Journal) -> list[int]:
    return [record["n"] for record in notes.recent()]


def test_a_new_file_system(flash: Path):
    notes = opened()
    assert notes.found == journal.FRESH and not notes.worn
    assert {"first": 1, "last": 0}.items() <= notes.state().items()
    assert notes.next_number() == 1 and numbers(notes) == []
    with pytest.raises(Refusal) as refused:
        notes.line(1)
    assert refused.value.code == "past_end"
    # Nothing was written, so what is kept there is nobody's to read.
    assert notes.line(0) == ""


def test_there_and_back(flash: Path):
    notes = opened()
    fill(notes, 3)
    assert [json.loads(notes.line(n)[:-8]) for n in (1, 2, 3)] == [
        end(n) | {"n": n, "t": 10 * n} for n in (1, 2, 3)
    ]
    again = opened()
    assert again.found == journal.WHOLE
    assert again.state() == notes.state()
    assert numbers(again) == [1, 2, 3]
    assert again.line(2) == notes.line(2)
    again.append(end(4), 7)
    assert again.state()["last"] == 4


def test_formatted_is_not_taken_for_the_old_one(flash: Path):
    epoch = opened().state()["epoch"]
    for path in sorted(flash.rglob("*"), reverse=True):
        path.unlink() if path.is_file() else path.rmdir()
    assert opened().state()["epoch"] != epoch


@pytest.mark.parametrize("torn", [b"", b"{", b"not sealed"])
def test_records_whose_epoch_is_lost_are_kept_and_said(flash: Path, torn: bytes):
    notes = opened()
    fill(notes, 2)
    (flash / "epoch").write_bytes(torn)
    again = opened()
    assert again.found == journal.DAMAGED
    assert again.state()["epoch"] != notes.state()["epoch"]
    assert numbers(again) == [1, 2]


def test_a_line_torn_at_every_byte(flash: Path):
    """At most the tail is lost, and its number is given again."""
    notes = opened()
    fill(notes, 2)
    path = segments(flash)[0]
    whole = path.read_bytes()
    begins = whole.index(b"\n") + 1
    for cut in range(begins, len(whole)):
        path.write_bytes(whole[:cut])
        again = opened()
        assert again.state()["last"] == 1 and again.found == journal.WHOLE
        assert path.read_bytes() == whole[:begins]
        again.append(end(9), 1)
        assert json.loads(again.line(2)[:-8])["run"] == 9


def test_a_torn_file_that_cannot_be_read_whole_stays_as_it_is(flash: Path, monkeypatch: pytest.MonkeyPatch):
    fill(opened(), 1)
    path = segments(flash)[0]
    path.write_bytes(path.read_bytes() + b"{")
    torn = path.read_bytes()
    read = files.read
    monkeypatch.setattr(files, "read", lambda name: None if name.endswith(path.name) else read(name))
    with pytest.raises(StorageError, match="cannot read"):
        opened()
    assert path.read_bytes() == torn


def test_a_wrong_bit_among_whole_records_is_damage(flash: Path):
    fill(opened(), 3)
    path = segments(flash)[0]
    data = bytearray(path.read_bytes())
    at = data.index(b"\n") + 5
    data[at] ^= 1
    path.write_bytes(data)
    again = opened()
    assert again.found == journal.DAMAGED
    assert again.line(2) == "" and numbers(again) == [1, 3]
    assert again.state()["last"] == 3


def test_files_of_some_kilobytes(flash: Path):
    notes = opened()
    fill(notes, 300)
    names = [int(path.name) for path in segments(flash)]
    assert len(names) >= 3 and names[0] == 1 and notes.state()["first"] == 1
    assert all(path.stat().st_size <= 8192 for path in segments(flash))
    again = opened()
    for number in (300, 1, 2, names[1] - 1, names[1], names[1] + 1):
        assert json.loads(again.line(number)[:-8])["n"] == number


def test_only_what_was_acknowledged_goes_and_never_the_newest_two(flash: Path):
    notes = opened()
    fill(notes, 500)
    names = [int(path.name) for path in segments(flash)]
    notes.keep_up_to(names[1] - 2)
    assert notes.state()["first"] == 1
    notes.keep_up_to(names[1] - 1)
    assert notes.state()["first"] == names[1]
    assert notes.line(1) == ""
    assert json.loads(notes.line(names[1])[:-8])["n"] == names[1]
    with pytest.raises(Refusal) as refused:
        notes.keep_up_to(501)
    assert refused.value.code == "past_end"
    notes.keep_up_to(500)
    assert [int(path.name) for path in segments(flash)] == names[-2:]
    fill(notes, 1, 501)
    assert notes.state()["last"] == 501


def test_a_flash_that_refuses_loses_nothing(flash: Path, monkeypatch: pytest.MonkeyPatch):
    notes = opened()
    fill(notes, 1)
    with monkeypatch.context() as worn:
        worn.setattr(files, "append", _refuse)
        for run in range(2, 33):
            with pytest.raises(StorageError, match="no"):
                notes.append(end(run), 10 * run)
        assert notes.worn and notes.next_number() == 33
        assert notes.state()["last"] == 1, "what waits is not there yet"
    notes.append(end(33), 330)
    assert not notes.worn
    assert [(record["n"], record["run"]) for record in opened().recent()] == [(n, n) for n in range(1, 34)]


def thirty_two_wait(monkeypatch: pytest.MonkeyPatch) -> Journal:
    """As many as are kept for a flash that refuses, which it does still."""
    notes = opened()
    monkeypatch.setattr(files, "append", _refuse)
    for run in range(1, 33):
        with pytest.raises(StorageError, match="no"):
            notes.append(end(run), 10 * run)
    return notes


def runs(notes: Journal) -> list[tuple[int, int]]:
    return [(record["n"], record["run"]) for record in notes.recent()]


def test_only_so_many_wait_for_a_worn_flash(flash: Path, monkeypatch: pytest.MonkeyPatch):
    """What cannot be kept is refused whole: it has had no number, and nothing that waits is lost for it."""
    with monkeypatch.context() as worn:
        notes = thirty_two_wait(worn)
        for run in (101, 102):
            with pytest.raises(StorageError, match="no"):
                notes.append(end(run), run)
            assert notes.next_number() == 33 and notes.worn
    notes.append(end(33), 330)
    assert not notes.worn
    assert runs(notes) == runs(opened()) == [(n, n) for n in range(1, 34)]


def test_a_flash_that_comes_back_for_one_record(flash: Path, monkeypatch: pytest.MonkeyPatch):
    """Then there is room to keep the new one, and it is kept."""
    append = files.append

    def once(path: str, data: bytes) -> None:
        monkeypatch.setattr(files, "append", _refuse)
        append(path, data)

    notes = thirty_two_wait(monkeypatch)
    monkeypatch.setattr(files, "append", once)
    with pytest.raises(StorageError, match="no"):
        notes.append(end(33), 330)
    assert notes.state()["last"] == 1 and notes.next_number() == 34 and notes.worn
    with pytest.raises(StorageError, match="no"):
        notes.append(end(101), 340)
    assert notes.next_number() == 34
    monkeypatch.setattr(files, "append", append)
    notes.append(end(34), 350)
    assert runs(notes) == runs(opened()) == [(n, n) for n in range(1, 35)]


def test_the_oldest_of_many_was_written_in_doubt(flash: Path, monkeypatch: pytest.MonkeyPatch):
    """Its write had arrived, and an error came after it: it is told once here too."""
    append = files.append

    def doubtful(path: str, data: bytes) -> None:
        append(path, data)
        raise StorageError("cannot be read back")

    notes = thirty_two_wait(monkeypatch)
    monkeypatch.setattr(files, "append", doubtful)
    with pytest.raises(StorageError, match="read back"):
        notes.append(end(101), 330)
    monkeypatch.setattr(files, "append", append)
    notes.append(end(33), 340)
    assert [path.name for path in segments(flash)] == ["00000001", "00000002"]
    assert runs(notes) == runs(opened()) == [(n, n) for n in range(1, 34)]


def _refuse(path: str, data: bytes) -> None:
    raise StorageError("no")


def test_what_was_written_in_doubt_is_told_once(flash: Path, monkeypatch: pytest.MonkeyPatch):
    """The write arrived, and an error came after it: what stands whole in the file is not written again."""
    notes = opened()
    fill(notes, 1)
    append = files.append

    def doubtful(path: str, data: bytes) -> None:
        append(path, data)
        raise StorageError("cannot be read back")

    with monkeypatch.context() as worn:
        worn.setattr(files, "append", doubtful)
        with pytest.raises(StorageError):
            notes.append(end(2), 20)
    notes.append(end(3), 30)
    assert len(segments(flash)) == 2
    assert numbers(notes) == numbers(opened()) == [1, 2, 3]

    # Refused at the head of a file: that very file is begun again.
    def refused(path: str, data: bytes) -> None:
        raise StorageError("the flash is worn")

    with monkeypatch.context() as worn:
        worn.setattr(files, "append", refused)
        for run in (4, 5):
            with pytest.raises(StorageError):
                notes.append(end(run), 10 * run)
    notes.append(end(6), 60)
    assert len(segments(flash)) == 3
    assert numbers(notes) == numbers(opened()) == [1, 2, 3, 4, 5, 6]


def test_an_error_between_the_write_and_its_number(flash: Path, monkeypatch: pytest.MonkeyPatch):
    """As an exception right after the write was made: the record is there, and not told a second time."""
    notes = opened()
    fill(notes, 1)
    write = notes._write

    def then_an_error(line: bytes) -> None:
        write(line)
        raise ValueError("after the write")

    with monkeypatch.context() as bad:
        bad.setattr(notes, "_write", then_an_error)
        with pytest.raises(ValueError):
            notes.append(end(2), 20)
    notes.append(end(3), 30)
    assert numbers(notes) == numbers(opened()) == [1, 2, 3]
    assert [len(path.read_bytes().splitlines()) for path in segments(flash)] == [3]


def test_a_record_at_the_end_of_a_file_and_at_the_head_of_the_next(flash: Path):
    """As a power cut may leave it: the later copy counts, and it is told once."""
    fill(opened(), 2)
    last = segments(flash)[0].read_bytes().splitlines(keepends=True)[-1]
    (flash / "journal" / "00000002").write_bytes(last)
    assert numbers(opened()) == [1, 2]


def test_a_file_that_was_only_named(flash: Path):
    """Cut between the name of a new file and its first record; and in replacing one."""
    fill(opened(), 3)
    (flash / "journal" / "00000004").write_bytes(b"")
    (flash / "journal" / "00000001.new").write_bytes(b"half")
    notes = opened()
    assert notes.state()["last"] == 3 and notes.found == journal.WHOLE
    notes.append(end(4), 40)
    assert numbers(opened()) == [1, 2, 3, 4]


def test_room_is_what_surely_fits(flash: Path, monkeypatch: pytest.MonkeyPatch):
    notes = opened()
    for blocks in (0, 8, 9, 20):
        monkeypatch.setattr(os, "statvfs", lambda path, free=blocks: (BLOCK_BYTES, 0, 352, free))
        spare = max(0, blocks - 8) * BLOCK_BYTES
        assert notes.room() == spare // 160
    longest = {"k": "arm", "run": 99_999, "slot": 8, "sha": "f" * 16, "title": "WWWWWW"}
    sealed = records.seal(longest | {"sheet": 99_999, "sheets": 99, "n": 999_999, "t": 10**9})
    assert len(sealed) + 1 <= 160


def test_a_date_where_there_is_room(flash: Path, monkeypatch: pytest.MonkeyPatch):
    notes = opened(1234)
    notes.note_date(1_700_000_000)
    assert [(r["k"], r["t"], r["unix_s"]) for r in notes.recent()] == [("date", 1234, 1_700_000_000)]
    with monkeypatch.context() as full:
        full.setattr(os, "statvfs", lambda path: (BLOCK_BYTES, 0, 352, 9))
        notes.note_date(1_700_000_001)
    assert notes.state()["last"] == 1
    with monkeypatch.context() as worn:
        worn.setattr(files, "append", _refuse)
        notes.note_date(1_700_000_002)
    assert notes.worn, "a greeting does not fail on it, but no run begins"


def test_what_is_told_at_a_start_reaches_back_far_enough(flash: Path):
    """To before the beginning of the last run, and over the lamp's ten minutes at least; not to all."""
    notes = opened()
    for number in range(1500):
        kind = end(1) if number == 100 else {"k": "fault", "run": 1, "step": 1, "code": 3}
        notes.append(kind, number * 2000)
    firsts = [int(path.name) for path in segments(flash)]
    assert len(firsts) > 5
    assert numbers(notes) == list(range(1, 1501)), "the last run began in the oldest file"
    notes.append(end(2), 1500 * 2000)
    told = list(notes.recent())
    assert told[-1]["n"] == 1501 and told[0]["n"] in firsts[1:]
    assert told[-1]["t"] - told[0]["t"] >= WINDOW_MS
    assert [record["n"] for record in told] == list(range(told[0]["n"], 1502))
