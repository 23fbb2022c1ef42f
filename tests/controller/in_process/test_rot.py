"""Bits that fall over in a controller at rest: said, kept as evidence, no number used again (I18, I19).

Held only against what was written before the rot, never against what the journal makes of it.
"""

import random
from pathlib import Path

import pytest
from tests.controller.in_process.test_journal import end, fill, numbers, opened, segments

from controller import files, journal
from controller import store as store_file
from controller.store import Store
from footlight_core.errors import StorageError
from footlight_core.run import Ledger

BITS = range(1, 9)


def flipped(data: bytes, dice: random.Random, bits: int, around: int | None = None) -> bytes:
    """So many different bits of it fall over; `around`: within some bytes of that place."""
    at = range(len(data)) if around is None else range(max(0, around - 4), min(len(data), around + 4))
    rotten = bytearray(data)
    for place in dice.sample([(byte, bit) for byte in at for bit in range(8)], bits):
        rotten[place[0]] ^= 1 << place[1]
    return bytes(rotten)


def lines_begin(data: bytes) -> list[int]:
    return [0, *(at + 1 for at, byte in enumerate(data[:-1]) if byte == 0x0A)]


def test_one_bit_in_each_of_the_last_records(flash: Path):
    """Seen on caaac8f: six records cut off, their numbers used again."""
    notes = opened()
    fill(notes, 7)
    before = notes.state()
    path = segments(flash)[0]
    data = bytearray(path.read_bytes())
    for begins in lines_begin(bytes(data))[1:]:
        data[begins + 5] ^= 1
    path.write_bytes(data)
    again = opened()
    assert again.found == journal.DAMAGED
    assert again.state()["epoch"] != before["epoch"] and again.state()["last"] == 7
    assert numbers(again) == [1] and again.line(4) == ""
    again.append(end(8), 80)
    assert path.read_bytes() == bytes(data), "evidence"
    assert [file.name for file in segments(flash)] == ["00000001", "00000008"]
    # It is said once; the epoch then stays.
    third = opened()
    assert third.found == journal.WHOLE and third.state() == again.state()
    assert numbers(third) == [1, 8]


@pytest.mark.parametrize("bits", BITS)
def test_bits_anywhere_in_the_journal(flash: Path, bits: int):
    """Whatever rots: numbers go on after all that were used, or the epoch is another; damage is told."""
    notes = opened()
    fill(notes, 120)
    epoch, name_of_it = notes.state()["epoch"], (flash / "epoch").read_bytes()
    whole = {path: path.read_bytes() for path in segments(flash)}
    for seed in range(150):
        dice = random.Random(1000 * bits + seed)
        path = dice.choice(list(whole))
        data = whole[path]
        around = dice.choice((None, len(data) - 1, len(data) - 10, dice.choice(lines_begin(data))))
        rotten = flipped(data, dice, bits, around)
        path.write_bytes(rotten)
        again = opened()
        told = numbers(again)
        assert again.found == journal.DAMAGED, f"{bits} bits, seed {seed}"
        assert again.state()["epoch"] != epoch
        assert again.next_number() > 120, f"{bits} bits, seed {seed}"
        assert set(range(1, 121)) - set(told) and len(set(told)) == len(told)
        again.append(end(999), 1)
        assert path.read_bytes() == rotten, "evidence"
        for name in segments(flash):
            name.unlink() if name not in whole else name.write_bytes(whole[name])
        (flash / "epoch").write_bytes(name_of_it)


def test_a_newline_that_rots_is_no_torn_line(flash: Path):
    notes = opened()
    fill(notes, 3)
    path = segments(flash)[0]
    data = path.read_bytes()
    for last in (0x0B, 0x2A, 0x8A, ord("a")):
        path.write_bytes(data[:-1] + bytes([last]))
        again = opened()
        assert (again.found, again.next_number()) == (journal.DAMAGED, 4), last
        (flash / "epoch").unlink()
    # Two records in one line: both numbers were used.
    path.write_bytes(data.replace(b"\n", b"\x0b"))
    assert opened().next_number() == 4
    # And what is torn is torn, also behind damage; there it stays, for it is evidence too.
    torn = data[:5] + b"?" + data[6:] + b'{"k":"en'
    path.write_bytes(torn)
    again = opened()
    again.append(end(4), 40)
    assert numbers(again) == [2, 3, 4] and path.read_bytes() == torn


def test_damage_in_an_older_file_is_told_as_it_is_read(flash: Path):
    notes = opened()
    fill(notes, 150)
    path = segments(flash)[-2]
    data = bytearray(path.read_bytes())
    data[50] ^= 4
    path.write_bytes(data)
    again = opened()
    assert again.found == journal.WHOLE
    assert len(numbers(again)) < 150 and again.found == journal.DAMAGED
    assert again.state()["epoch"] != notes.state()["epoch"] and again.next_number() == 151
    assert len(list(again.everything())) == 149


def test_an_epoch_that_cannot_be_written_stops_no_start(flash: Path, monkeypatch: pytest.MonkeyPatch):
    fill(opened(), 3)
    path = segments(flash)[0]
    path.write_bytes(path.read_bytes()[:-4] + b"xxx\n")

    def refuse(path: str, data: bytes) -> None:
        raise StorageError("no")

    monkeypatch.setattr(files, "replace", refuse)
    again = opened()
    assert again.found == journal.DAMAGED and again.worn and again.next_number() == 4


@pytest.mark.parametrize("bits", BITS)
def test_bits_in_the_ledger(flash: Path, bits: int):
    """Seen on caaac8f: one bit, and sheet numbers began anew without a word."""
    ledger = Ledger(42, 17, (12, 30), 41, 2)
    for seed in range(40):
        for name in ("ledger", "ledger2"):
            Store().keep(ledger)
            path = flash / name
            path.write_bytes(flipped(path.read_bytes(), random.Random(seed), bits))
            store = Store()
            assert store.ledger().__dict__ == ledger.__dict__
            assert store.ledger_found == store_file.MENDED


@pytest.mark.parametrize("bits", BITS)
def test_bits_in_the_epoch(flash: Path, bits: int):
    notes = opened()
    fill(notes, 5)
    epoch = notes.state()["epoch"]
    data = (flash / "epoch").read_bytes()
    for seed in range(40):
        (flash / "epoch").write_bytes(flipped(data, random.Random(seed), bits))
        again = opened()
        assert again.found == journal.DAMAGED and again.state()["epoch"] != epoch
        assert again.next_number() == 6 and numbers(again) == [1, 2, 3, 4, 5]
