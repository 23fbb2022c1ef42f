"""Scenes of words: what the computer says, what the journal keeps, what is shown."""

import contextlib
import hashlib
from pathlib import Path
from typing import Any

from tests.controller.stage import channel, records, status
from tests.planted.setting import PRINT, Options, leave, light, lit, on_stage

from footlight.bench import Bench
from footlight.bench import events as ev
from footlight.link import journal
from footlight.link.errors import RefusedError
from footlight_core import wire


def noise_at_rest(folder: Path, options: Options) -> None:
    """A Ctrl-C in noise does not end the program of an idle controller."""
    with on_stage(folder, options) as bench:
        leave(bench)
        for noise in (b"\x03", b"\x8f\x03\x11\r", b"\r\x03\n"):
            bench.stream().write(noise)
            bench.run_for(700)
            assert bench.is_on


def a_babbling_computer(folder: Path, options: Options) -> None:
    """Every message in every state, damaged frames, and one id twice: no light, nothing done twice."""
    with on_stage(folder, options) as bench:
        link = channel(bench)
        for _ in range(2):
            for message in wire.MESSAGES:
                _ask_wildly(bench, link, message)
            if not bench.lamp:
                lit(bench, 100)
        with contextlib.suppress(RefusedError):
            link.ask("clear", slot=1)
        assert bench.lamp and link.ask("slots")["slots"]
        bench.tap()
        _damaged(bench)


def _ask_wildly(bench: Bench, link: Any, message: tuple) -> None:
    if message[0] in ("hello", "maintain"):
        return
    params = {name: "0" * most if kind is str else max(least, 1) for name, kind, least, most in message[1]}
    refused = False
    try:
        link.ask(message[0], **params)
    except RefusedError:
        refused = True
    assert refused or not message[3], f"{message[0]} was answered in a run"
    bench.run_for(50)


def _damaged(bench: Bench) -> None:
    frame = wire.frame({"jsonrpc": "2.0", "id": "aaaa.1", "method": "hello", "params": {}})
    before = bench.stream().read(4_096)
    for spoilt in (frame.replace(b"hello", b"hallo"), frame[:-9] + frame[-9:].upper(), b"{}00000000\n"):
        if spoilt != frame:
            bench.stream().write(spoilt)
            bench.run_for(100)
            assert not bench.stream().read(4_096), before


def a_repeated_request(folder: Path, options: Options) -> None:
    """The same id is answered from memory; another session's same count is not."""
    with on_stage(folder, options) as bench:
        answers = [_exchange(bench, "aaaa", count) for count in (1, 2, 2, 3)]
        assert answers[1] == answers[2] != answers[3]
        assert _exchange(bench, "bbbb", 3) != answers[3]
        assert _exchange(bench, "bbbb", 1) != answers[0]


def _exchange(bench: Bench, nonce: str, count: int) -> bytes:
    hello = {"nonce": nonce, "least": 1, "most": 1, "schema": "00000000", "unix_s": 0}
    method, params = ("hello", hello) if count == 1 else ("records", {"first": count})
    message = {"jsonrpc": "2.0", "id": f"{nonce}.{count}", "method": method, "params": params}
    bench.stream().write(wire.frame(message))
    bench.run_for(50)
    return bench.stream().read(4_096)


def the_journal(folder: Path, options: Options) -> None:
    """Records come home whole, go on over restarts, and only what was acknowledged may go."""
    with on_stage(folder, options) as bench:
        light(bench, 6_000)
        told = records(bench)
        for _ in range(2):
            bench.cut_power()
            bench.switch_on()
            bench.run_for(500)
        link = channel(bench)
        read = [entry.record for entry in journal.read(link, 1)]
        assert [record and record["n"] for record in read] == list(range(1, len(read) + 1))
        assert [record for record in read if record][: len(told)] == told
        assert status(bench)["found"] == 0
        _arm_again(bench)
        assert [record["run"] for record in records(bench, "arm")] == [1, 2]


def _arm_again(bench: Bench) -> None:
    bench.hold()
    bench.run_for(700)
    leave(bench)
    for _ in range(2):
        bench.hold()
        bench.run_for(700)


def what_is_shown(folder: Path, options: Options) -> None:
    """Hash and number that are told are those of what was sent; noise in the display lasts a second."""
    with on_stage(folder, options) as bench:
        sha = hashlib.sha256(wire.dumps(PRINT).encode()).hexdigest()
        assert channel(bench).ask("slots")["slots"] == [[1, "PRINT", sha[:16]]]
        assert status(bench)["sha"] == records(bench, "arm")[-1]["sha"] == sha[:16]
        leave(bench)
        bench.run_for(5_000)
        bench.panel.disturb()
        bench.run_for(1_100)
        assert not bench.panel.in_test
        rises = [event for event in bench.events if event.kind == ev.TONE and event.value]
        assert rises
