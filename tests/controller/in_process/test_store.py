"""The store on a folder: uploads that go on after any interruption, slots that hold a whole program or none.

The fault model's rows on uploads and power cuts, and I10: the active program is exactly a committed one.
"""

import hashlib
import json
import os
from pathlib import Path

import pytest
from tests.controller.stage import BATH, LIGHT, program

from controller import files
from controller import store as store_file
from controller.store import Store
from footlight_core.errors import ProgramError, Refusal, StorageError
from footlight_core.run import Ledger

DATA = json.dumps(program(LIGHT, BATH)).encode()
SHA = hashlib.sha256(DATA).hexdigest()
TITLE = json.loads(DATA)["title"]


def send(store: Store, slot: int = 1, data: bytes = DATA) -> str:
    """A whole upload -> the title."""
    sha = hashlib.sha256(data).hexdigest()
    store.begin(slot, sha, len(data))
    for at in range(0, len(data), 100):
        store.put(slot, at, data[at : at + 100])
    return store.commit(slot, sha)


def refusal(call: object, *arguments: object) -> str:
    assert callable(call)
    with pytest.raises(Refusal) as refused:
        call(*arguments)
    return refused.value.code


def test_empty(flash: Path):
    store = Store()
    assert store.slots() == [] and store.entries() == ()
    assert refusal(store.clear, 1) == "no_slot"
    assert refusal(store.put, 1, 0, b"x") == "no_upload"
    assert refusal(store.commit, 1, SHA) == "no_upload"
    assert store.load(1, SHA) is None


def test_a_program_comes_and_stays(flash: Path):
    store = Store()
    assert store.begin(3, SHA, len(DATA)) == 0
    assert store.put(3, 0, DATA[:50]) == 50
    assert store.put(3, 50, DATA[50:]) == len(DATA)
    assert store.slots() == [], "not before it is whole and was looked at"
    assert store.commit(3, SHA) == TITLE
    for again in (store, Store()):
        assert again.slots() == [[3, TITLE, SHA[:16]]]
        assert again.entries() == ((3, SHA, TITLE),)
        loaded = again.load(3, SHA)
        assert loaded and loaded["title"] == TITLE
        assert again.load(3, "0" * 64) is None
    assert [path.name for path in flash.iterdir()] == ["slot3"]


def test_a_request_that_is_repeated_does_nothing_twice(flash: Path):
    store = Store()
    send(store)
    assert store.commit(1, SHA) == TITLE
    assert store.begin(1, SHA, len(DATA)) == len(DATA), "nothing is missing"


def test_bytes_that_are_there_are_passed_over(flash: Path):
    store = Store()
    store.begin(1, SHA, len(DATA))
    store.put(1, 0, DATA[:60])
    assert store.put(1, 0, DATA[:60]) == 60
    assert store.put(1, 40, DATA[40:80]) == 80
    assert refusal(store.put, 1, 81, b"x") == "bad_offset"
    assert refusal(store.put, 1, 80, DATA) == "bad_offset"
    store.put(1, 80, DATA[80:])
    assert store.commit(1, SHA) == TITLE


@pytest.mark.parametrize("there", [0, 1, 77, len(DATA)])
def test_an_upload_goes_on_after_a_start(flash: Path, there: int):
    store = Store()
    store.begin(1, SHA, len(DATA))
    store.put(1, 0, DATA[:there])
    store = Store()
    assert store.begin(1, SHA, len(DATA)) == there
    if there < len(DATA):
        assert refusal(store.commit, 1, SHA) == "bad_offset"
        store.put(1, there, DATA[there:])
    assert store.commit(1, SHA) == TITLE


def test_two_uploads_do_not_mix(flash: Path):
    store = Store()
    other = json.dumps(program(LIGHT, sheets=2, title="OTHER")).encode()
    other_sha = hashlib.sha256(other).hexdigest()
    store.begin(1, SHA, len(DATA))
    store.put(1, 0, DATA[:60])
    store.begin(2, other_sha, len(other))
    store.put(2, 0, other[:70])
    assert store.put(1, 60, DATA[60:]) == len(DATA)
    assert store.put(2, 70, other[70:]) == len(other)
    assert refusal(store.commit, 2, SHA) == "bad_offset", "that is not what was announced for it"
    assert (store.commit(1, SHA), store.commit(2, other_sha)) == (TITLE, "OTHER")
    store.begin(2, hashlib.sha256(b"x").hexdigest(), 1)
    store.begin(2, SHA, len(DATA))
    assert len([path for path in flash.iterdir() if path.name.startswith("up2")]) == 1, "the newest counts"


def test_a_wrong_hash_is_refused_and_the_old_program_stays(flash: Path):
    store = Store()
    send(store)
    wrong = DATA[:-1] + b" "
    announced = hashlib.sha256(b"another").hexdigest()
    store.begin(1, announced, len(wrong))
    store.put(1, 0, wrong)
    assert refusal(store.commit, 1, announced) == "bad_hash"
    assert store.slots() == [[1, TITLE, SHA[:16]]]
    assert refusal(store.commit, 1, announced) == "no_upload"


def test_a_program_that_breaks_a_rule_is_refused_at_commit(flash: Path):
    store = Store()
    send(store)
    with pytest.raises(ProgramError):
        send(store, 1, b'{"v":1}')
    assert store.load(1, SHA)


def test_no_room(flash: Path, monkeypatch: pytest.MonkeyPatch):
    store = Store()
    monkeypatch.setattr(os, "statvfs", lambda path: (4096, 4096, 352, 8))
    with pytest.raises(StorageError, match="no room for"):
        store.begin(1, SHA, len(DATA))
    assert list(flash.iterdir()) == []


def test_a_flash_that_refuses_a_put_is_looked_at_again(flash: Path, monkeypatch: pytest.MonkeyPatch):
    store = Store()
    store.begin(1, SHA, len(DATA))
    store.put(1, 0, DATA[:60])
    extend = files.extend

    def half(path: str, data: bytes) -> None:
        extend(path, data[:10])
        raise StorageError("no")

    with monkeypatch.context() as worn:
        worn.setattr(files, "extend", half)
        with pytest.raises(StorageError):
            store.put(1, 60, DATA[60:])
    assert store.put(1, 60, DATA[60:]) == len(DATA)
    assert store.commit(1, SHA) == TITLE


def test_cleared(flash: Path):
    store = Store()
    send(store)
    store.clear(1)
    assert store.slots() == [] == Store().slots()


def test_every_wrong_byte_is_seen(flash: Path):
    """A slot that is not what was committed is shown as damaged, and cannot be opened."""
    store = Store()
    send(store)
    whole = (flash / "slot1").read_bytes()
    for at in range(len(whole)):
        (flash / "slot1").write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        assert store.load(1, SHA) is None
        assert store.entries() == ((1, "", "?1"),) == Store().entries()
        store.begin(1, SHA, len(DATA))
    (flash / "slot1").write_bytes(whole)
    assert Store().load(1, SHA)


@pytest.mark.parametrize("length", [0, 1, 100])
def test_a_slot_cut_off(flash: Path, length: int):
    send(Store())
    whole = (flash / "slot1").read_bytes()
    (flash / "slot1").write_bytes(whole[:length])
    assert Store().entries() == ((1, "", "?1"),)
    assert Store().begin(1, SHA, len(DATA)) == 0, "a damaged one is sent again"


def test_a_committed_program_that_a_later_firmware_refuses(flash: Path, monkeypatch: pytest.MonkeyPatch):
    store = Store()
    send(store)

    def refuse(data: bytes) -> None:
        raise ProgramError(0, "v", 1, "2")

    monkeypatch.setattr("controller.store.programs.parse", refuse)
    assert store.load(1, SHA) is None
    assert store.entries() == ((1, SHA, TITLE),), "its bytes are what they were"


def test_the_ledger_outlives_a_start(flash: Path):
    store = Store()
    ledger = store.ledger()
    assert (ledger.next_sheet, ledger.next_run, ledger.waiting) == (1, 1, [])
    ledger.take(7)
    ledger.wait(9)
    ledger.brightness = 3
    store.keep(ledger)
    kept = Store().ledger()
    assert kept.__dict__ == ledger.__dict__
    assert kept.candidates() == [9, 8, 7]
    for rotten, found in (("ledger", store_file.MENDED), ("ledger2", store_file.LOST)):
        (flash / rotten).write_bytes(b"rotten")
        again = Store()
        assert again.ledger().__dict__ == (ledger if found == store_file.MENDED else Ledger()).__dict__
        assert again.ledger_found == found
    store.keep(ledger)
    (flash / "ledger2").unlink()
    again = Store()
    assert again.ledger().next_sheet == 8 and again.ledger_found == store_file.WHOLE, "an older firmware's"
    store.keep(ledger)
    (flash / "ledger2").write_bytes(b"rotten")
    assert again.ledger().next_sheet == 8 and again.ledger_found == store_file.MENDED


def test_what_was_learnt_of_the_sensor_is_kept_twice(flash: Path):
    store = Store()
    assert store.sensor_found == store_file.WHOLE and store.known() == {"fitted": 0, "lamps": []}
    learnt = {"level": 24_000, "dark": 90, "warm_ms": 40_000, "tail_ms": 40, "power": 1_000}
    store.learn({"lamp": "HEAD"} | learnt)
    head = ["HEAD", 24_000, 90, 40_000, 40, 1_000]
    assert Store().known() == {"fitted": 1, "lamps": [head]}
    assert refusal(store.learn, {"lamp": "HEAD"} | learnt | {"dark": 20_000}) == "bad_params"
    for name in ("A", "B", "C"):
        store.learn({"lamp": name} | learnt)
    assert refusal(store.learn, {"lamp": "D"} | learnt) == "bad_params"
    store.fit(0)
    (flash / "sensor").write_bytes(b"rotten")
    again = Store()
    assert again.sensor_found == store_file.MENDED and again.known()["fitted"] == 0
    (flash / "sensor2").write_bytes(b"rotten")
    again = Store()
    assert again.sensor_found == store_file.LOST and again.known() == {"fitted": 0, "lamps": []}
