"""Power lost at every operation of the flash, torn or whole, on real littlefs: what was durable stays."""

import shutil
from pathlib import Path

import pytest
from tests.controller.stage import (
    LIGHT_FIRST,
    SHORT_RUN,
    armed,
    channel,
    records,
    send,
    state,
    status,
    switched_on,
)

from footlight.bench import Bench
from footlight.bench import events as ev
from footlight.bench.process import MICROPYTHON, best_interpreter
from footlight.link import journal, slots
from footlight.link.errors import LinkError

pytestmark = pytest.mark.skipif(
    best_interpreter() != MICROPYTHON, reason="no MicroPython for this machine: no littlefs to tear"
)
TORN_PERCENT = (0, 40, 100)
MOST_OPERATIONS = 60


def copies(tmp_path: Path, image: Path):
    """The same flash again and again: (folder, operation to cut at, per cent of it that happens)."""
    for operation in range(1, MOST_OPERATIONS):
        for percent in TORN_PERCENT:
            folder = tmp_path / f"{operation}-{percent}"
            folder.mkdir()
            shutil.copy(image, folder / "flash.img")
            yield folder, operation, percent


def started(folder: Path) -> Bench:
    bench = Bench(folder)
    bench.switch_on()
    bench.run_for(200)
    return bench


def test_replacing_a_program_leaves_the_old_or_the_new(tmp_path: Path):
    with switched_on(tmp_path, SHORT_RUN) as bench:
        old = channel(bench).ask("slots")["slots"][0][2]
    outcomes = set()
    for folder, operation, percent in copies(tmp_path, tmp_path / "flash.img"):
        with started(folder) as bench:
            bench.tell_box(f"flash cut {operation} {percent}")
            try:
                new = send(bench, LIGHT_FIRST)
            except LinkError:
                new = ""
            finished = bench.end is None
        with started(folder) as bench:
            there = slots.in_use(channel(bench))
            assert len(there) == 1 and there[0].title == "PRINT"
            outcomes.add(there[0].sha == old)
            assert send(bench, LIGHT_FIRST)[:16] == slots.in_use(channel(bench))[0].sha
            assert status(bench)["found"] == 0
        if finished:
            assert new and outcomes == {True, False}
            return
    pytest.fail("an upload takes more operations than were cut")


def test_the_journal_is_a_prefix_of_what_happened(tmp_path: Path):
    with switched_on(tmp_path, LIGHT_FIRST):
        pass
    for folder, operation, percent in copies(tmp_path, tmp_path / "flash.img"):
        with started(folder) as bench:
            bench.tell_box(f"flash cut {operation} {percent}")
            foot = ((True, 1500), (False, 700)) * 2 + ((True, 200), (False, 5_600))
            for down, span_ms in foot:
                bench.contacts(down, not down)
                bench.run_for(span_ms)
            finished = bench.end is None
            durable = records(bench)
        with started(folder) as bench:
            read = list(journal_of(bench))
            numbers = [record["n"] for record in read]
            assert numbers == list(range(1, len(read) + 1))
            for record in durable:
                assert read[record["n"] - 1] == record
            assert state(bench) in ("idle", "broken") and not bench.lamp
            assert records(bench, "boot")[-1]["fresh"] == 0
        if finished:
            return
    pytest.fail("a run takes more operations than were cut")


def journal_of(bench: Bench):
    """Every record, read over the link."""
    for entry in journal.read(channel(bench), 1):
        assert entry.record is not None
        yield entry.record


def test_a_second_cut_while_the_first_is_being_told(tmp_path: Path):
    with armed(tmp_path, LIGHT_FIRST) as bench:
        bench.tap()
        bench.run_for(1_000)
        assert bench.lamp
    for folder, operation, percent in copies(tmp_path, tmp_path / "flash.img"):
        with Bench(folder) as bench:
            bench.switch_on()
            bench.tell_box(f"flash cut {operation} {percent}")
            bench.run_for(200)
            finished = bench.end is None
            durable = records(bench)
        with started(folder) as bench:
            read = list(journal_of(bench))
            assert [record["n"] for record in read] == list(range(1, len(read) + 1))
            assert all(record in read for record in durable)
            assert state(bench) == "broken" and not bench.lamp
            cuts = [record for record in read if record["k"] == "cut"]
            assert {(cut["least_ms"], cut["most_ms"]) for cut in cuts} == {(0, 5_000)}
        if finished:
            return
    pytest.fail("a start takes more operations than were cut")


def test_the_first_start_may_be_cut_too(tmp_path: Path):
    for operation in range(1, 40, 3):
        folder = tmp_path / str(operation)
        with Bench(folder) as bench:
            bench.switch_on()
            bench.run_until_event(lambda event: event.kind == ev.PROGRAM, 1_000, ev.PROGRAM)
            bench.tell_box(f"flash cut {operation} 40")
            bench.run_for(200)
        with started(folder) as bench:
            assert [record["n"] for record in journal_of(bench)][-1] >= 1
            assert state(bench) == "idle"


def test_a_worn_flash_refuses_to_arm_and_says_so(tmp_path: Path):
    with switched_on(tmp_path, LIGHT_FIRST) as bench:
        bench.tell_box("flash bad " + " ".join(str(block) for block in range(352)))
        bench.hold()
        bench.run_for(700)
        bench.hold()
        bench.run_for(700)
        assert (state(bench), status(bench)["fault"]) == ("fault", 6)
        bench.tap()
        bench.run_for(3_000)
        assert not [event for event in bench.events if event.kind == ev.GATE and event.value]
        assert channel(bench).greet(1_700_000_000).agreed, "the journal can be read in any case"
        # A flash that takes records again gets those that waited, and none is missing.
        bench.tell_box("flash bad")
        bench.hold()
        bench.run_for(1_000)
        assert status(bench)["fault"] == 0
        read = list(journal_of(bench))
        assert [record["n"] for record in read] == list(range(1, len(read) + 1))
        assert {"arm", "fault", "cleared"} <= {record["k"] for record in read}
