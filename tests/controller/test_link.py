"""The computer at the controller: it may come, go, babble and not listen; the run does not notice."""

import json
import random
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from tests.controller.invariants import Invariants
from tests.controller.stage import (
    BATH,
    INTERPRETERS,
    LIGHT_FIRST,
    SHORT_RUN,
    armed,
    channel,
    gate_ms,
    program,
    records,
    send,
    state,
    switched_on,
)

from footlight.actions.bring_up import bring_up
from footlight.bench import Bench
from footlight.bench import events as ev
from footlight.install import reach
from footlight.install.errors import BenchError
from footlight.link import journal, slots
from footlight.link.errors import LinkError, RefusedError
from footlight_core import wire

TOOLS = (b"\r\x03\r\x01", b"\r\x03\x03\r\x01")


@pytest.mark.parametrize("knock", TOOLS)
def test_a_tool_that_asks_for_the_prompt_gets_it_when_idle(tmp_path: Path, knock: bytes):
    with switched_on(tmp_path) as bench:
        bench.stream().write(knock)
        bench.run_for(100)
        assert bench.end and (bench.end.kind, bench.end.text) == (ev.PROMPT, "left")
        watchdog = [event.value for event in bench.events if event.kind == ev.WATCHDOG]
        assert watchdog == [1, 0] and bench.keyboard


def test_noise_does_not_open_the_prompt(tmp_path: Path):
    """Bytes of every value, alone and in bursts; and all that is nearly what a tool sends."""
    dice = random.Random(12)
    bursts = [dice.randbytes(dice.choice((1, 2, 5, 40))) for _ in range(150)]
    bursts += [bytes(dice.choices(b"\r\x03\x01\n", k=6)).replace(b"\r\x03", b"\x03") for _ in range(50)]
    bursts += [
        b"\x03",
        b"\x03" * 30,
        b"\r\x03",
        b"\x03\x03\r",
        b"\r\x03\x03\x03\r",
        b"a\r\x03\r",
        b"\r\x03\n\r",
    ]
    with switched_on(tmp_path) as bench:
        for burst in bursts:
            bench.stream().write(burst)
            bench.run_for(dice.choice((5, 100, 700)))
        bench.run_for(700)
        bench.stream().write(TOOLS[0][:2])
        bench.run_for(600)
        bench.stream().write(TOOLS[0][2:])
        bench.run_for(100)
        assert bench.is_on and state(bench) == "idle" and not bench.keyboard


@pytest.mark.parametrize("interpreter", INTERPRETERS)
def test_ctrl_c_and_noise_do_nothing_to_a_run(tmp_path: Path, interpreter: str):
    noise = random.Random(7).randbytes(3_000) + b"\x03\x04\r\n"
    with armed(tmp_path, LIGHT_FIRST, interpreter=interpreter) as bench:
        watcher = Invariants(bench)
        bench.stream().write(b"\x03\x03\x04")
        bench.tap()
        for start in range(0, len(noise), 100):
            bench.stream().write(noise[start : start + 100])
            bench.run_for(100)
        bench.run_for(3_000)
        assert gate_ms(bench) == [5_050] and watcher.broken == []
        assert state(bench) == "ready"
        assert not bench.keyboard


@pytest.mark.parametrize("knock", TOOLS)
def test_the_prompt_opens_after_a_run_and_not_in_it(tmp_path: Path, knock: bytes):
    with armed(tmp_path, program(BATH)) as bench:
        bench.stream().write(knock)
        bench.tap()
        bench.run_for(16_000)
        bench.stream().write(knock)
        bench.tap()
        bench.run_for(1_000)
        assert state(bench) == "done"
        bench.run_for(600)
        bench.stream().write(knock)
        bench.run_for(100)
        assert bench.end and bench.end.text == "left"


def test_maintenance_stops_app_and_watchdog_after_its_answer(tmp_path: Path):
    with switched_on(tmp_path) as bench:
        assert channel(bench).ask("maintain") == {}
        bench.run_for(20_000)
        assert bench.end and (bench.end.kind, bench.end.text) == (ev.PROMPT, "left")


def test_nothing_is_installed_on_the_bench_and_it_stays_on(tmp_path: Path):
    with switched_on(tmp_path) as bench:
        assert channel(bench).greet().is_bench
        for leave in (
            reach.at_prompt,
            lambda stream: bring_up("bench", Silent(), 0, open_stream=opened(stream)),
        ):
            with pytest.raises(BenchError, match="this is the bench.*board's own port"):
                leave(bench.stream())
        assert bench.is_on and bench.end is None and state(bench) == "idle"


def opened(stream: object) -> Callable[[str], Any]:
    return lambda address: stream


class Silent:
    """A maker who is asked nothing."""

    def say(self, text: str) -> None: ...

    def ready(self, text: str) -> None: ...

    def confirm(self, question: str) -> bool | None: ...


def test_a_fault_that_stands_is_no_run_under_way(tmp_path: Path):
    with switched_on(tmp_path) as bench:
        bench.contacts(True, True)
        bench.run_for(2_000)
        assert state(bench) == "fault"
        with pytest.raises(
            RefusedError, match="the fault WIRE stands.*check plug and cable.*long press"
        ) as refused:
            channel(bench).ask("maintain")
        assert "run is under way" not in str(refused.value)


@pytest.mark.parametrize("method", ["maintain", "kept", "clear", "begin"])
def test_a_run_refuses_what_changes_anything(tmp_path: Path, method: str):
    params = {
        "maintain": {},
        "kept": {"last": 1},
        "clear": {"slot": 1},
        "begin": {"slot": 1, "sha256": "0" * 64, "length": 9},
    }
    with armed(tmp_path, LIGHT_FIRST) as bench:
        with pytest.raises(RefusedError) as refused:
            channel(bench).ask(method, **params[method])
        assert refused.value.name == "busy"
        assert state(bench) == "ready"


@pytest.mark.parametrize("interpreter", INTERPRETERS)
def test_a_computer_that_does_not_read_delays_nothing(tmp_path: Path, interpreter: str):
    with armed(tmp_path, LIGHT_FIRST, interpreter=interpreter) as bench:
        stream = bench.stream()
        stream.listen(False)
        ask = {"jsonrpc": "2.0", "id": "abcd.1", "method": "status", "params": {}}
        # A pipe holds 64 KiB; this is more, at 100 bytes or so a reply.
        for _ in range(1_500):
            stream.write(wire.frame(ask))
            bench.run_for(1)
        bench.tap()
        for _ in range(20):
            stream.write(wire.frame(ask))
            bench.run_for(200)
        bench.run_for(2_000)
        assert gate_ms(bench) == [5_050]
        stream.listen(True)
        bench.run_for(1_000)
        # Each reply that found no reader for half a second was dropped, eight of them at least in these
        # seconds, even if a pipe took the first; questions not yet read by the controller are answered now.
        answers = stream.take().count(b'"id":"abcd.1"')
        assert 0 < answers <= 1_520 - 8
        assert state(bench) == "ready"


def test_traffic_moves_no_edge_of_the_gate(tmp_path: Path):
    edges = []
    for talks in (False, True):
        with armed(tmp_path / str(talks), LIGHT_FIRST) as bench:
            start_us = bench.now_us
            bench.press()
            bench.run_for(150)
            bench.release()
            for _ in range(60):
                if talks:
                    bench.stream().write(wire.frame({"id": "x", "method": "status"}))
                bench.run_for(100)
            edges.append([e.t_us - start_us for e in bench.events if e.kind == ev.GATE and e.t_us > start_us])
    assert edges[0] == edges[1] and len(edges[0]) == 2


def test_the_journal_can_be_read_in_a_run_and_is_what_was_written(tmp_path: Path):
    with armed(tmp_path, LIGHT_FIRST) as bench:
        bench.tap()
        bench.run_for(1_000)
        read = [entry.record for entry in journal.read(channel(bench), 1)]
        assert read == records(bench)
        assert bench.lamp


def test_only_whole_acknowledged_files_go_and_numbers_go_on(tmp_path: Path):
    with switched_on(tmp_path, program(BATH)) as bench:
        while len(records(bench)) < 320:
            talk = channel(bench)
            talk.greet(1_700_000_000)
        talk = channel(bench)
        last = journal.extent(talk).last
        assert journal.acknowledge(talk, last)
        kept = journal.extent(talk)
        assert 1 < kept.first <= kept.last == last
        assert next(journal.read(talk, kept.first)).record == records(bench)[kept.first - 1]
        bench.cut_power()
        bench.switch_on()
        bench.run_for(100)
        assert records(bench)[-1]["n"] == last + 1


def test_an_upload_goes_on_after_a_power_cut(tmp_path: Path):
    with switched_on(tmp_path, SHORT_RUN) as bench:
        data = wire.dumps(LIGHT_FIRST).encode()
        talk = channel(bench)
        sha = "f" * 64
        talk.ask("begin", slot=2, sha256=sha, length=len(data))
        talk.ask("put", slot=2, offset=0, data=wire.pack(data[:100]))
        bench.cut_power()
        bench.switch_on()
        bench.run_for(100)
        talk = channel(bench)
        assert talk.ask("begin", slot=2, sha256=sha, length=len(data))["offset"] == 100
        assert talk.ask("put", slot=2, offset=0, data=wire.pack(data[:150]))["offset"] == 150
        with pytest.raises(RefusedError) as refused:
            talk.ask("put", slot=2, offset=170, data="aGVsbG8=")
        assert refused.value.name == "bad_offset"
        talk.ask("put", slot=2, offset=150, data=wire.pack(data[150:]))
        with pytest.raises(RefusedError) as refused:
            talk.ask("commit", slot=2, sha256=sha)
        assert refused.value.name == "bad_hash"
        assert [slot.number for slot in slots.in_use(talk)] == [1]


def test_a_program_the_controller_will_not_run_changes_nothing(tmp_path: Path):
    glaring = json.loads(json.dumps(LIGHT_FIRST))
    glaring["steps"][0]["time_ms"] = 119_000
    with switched_on(tmp_path, SHORT_RUN) as bench:
        before = slots.in_use(channel(bench))
        with pytest.raises(LinkError, match="time_ms"):
            send(bench, glaring)
        assert slots.in_use(channel(bench)) == before


def test_eight_slots_and_their_list_fit(tmp_path: Path):
    with switched_on(tmp_path, SHORT_RUN) as bench:
        for slot in range(2, 9):
            send(bench, SHORT_RUN | {"title": f"TITLE{slot}"}, slot)
        there = slots.in_use(channel(bench))
        assert [slot.number for slot in there] == list(range(1, 9))
        slots.clear(channel(bench), 3)
        with pytest.raises(RefusedError) as refused:
            slots.clear(channel(bench), 3)
        assert refused.value.name == "no_slot"


def test_a_slot_that_rots_is_listed_without_a_title_and_not_run(tmp_path: Path):
    with Bench(tmp_path, "cpython") as bench:
        bench.switch_on()
        send(bench, SHORT_RUN)
    slot = tmp_path / "flash" / "data" / "slot1"
    slot.write_bytes(slot.read_bytes().replace(b"developer", b"Developer"))
    with Bench(tmp_path, "cpython") as bench:
        bench.switch_on()
        assert [slot.title for slot in slots.in_use(channel(bench))] == [""]
        bench.hold()
        bench.run_for(700)
        assert state(bench) == "idle" and not records(bench, "arm")
        send(bench, SHORT_RUN)
        assert [slot.title for slot in slots.in_use(channel(bench))] == ["PRINT"]


def test_a_journal_that_rots_is_said_and_read_around(tmp_path: Path):
    with armed(tmp_path, interpreter="cpython") as bench:
        bench.tap()
    segment = next((tmp_path / "flash" / "data" / "journal").iterdir())
    segment.write_bytes(segment.read_bytes().replace(b'"arm"', b'"arn"'))
    with Bench(tmp_path, "cpython") as bench:
        bench.switch_on()
        bench.run_for(100)
        assert state(bench) == "fault"
        entries = list(journal.read(channel(bench), 1))
        assert [entry.number for entry in entries if entry.record is None] == [2]
        assert entries[-1].record and entries[-1].record["k"] in ("boot", "fault")
