"""The bench at a port: what talks to a controller talks to it, by pseudo-terminal or TCP, in real time."""

import sys
import time
from pathlib import Path

import pytest
from tests.controller.stage import INTERPRETERS, SHORT_RUN, records

from footlight.bench import Bench
from footlight.bench.pace import Pace
from footlight.bench.serve import PTY, TCP, ServeError, serving
from footlight.link import journal, slots, upload
from footlight.link.channel import Channel
from footlight.link.transport import open_stream
from footlight_core import wire

KINDS = [TCP] if sys.platform == "win32" else [PTY, TCP]


def talk_to(address: str) -> Channel:
    channel = Channel(open_stream(address))
    channel.greet()
    return channel


def sent(channel: Channel) -> upload.Delivery:
    import hashlib

    data = wire.dumps(SHORT_RUN).encode()
    return upload.send(channel, data, hashlib.sha256(data).hexdigest(), "PRINT")


@pytest.mark.parametrize("interpreter", INTERPRETERS)
@pytest.mark.parametrize("kind", KINDS)
def test_upload_and_journal_over_a_real_port(tmp_path: Path, kind: str, interpreter: str):
    with Bench(tmp_path, interpreter) as bench:
        bench.switch_on()
        with serving(bench, kind) as address:
            channel = talk_to(address)
            assert sent(channel).moved_bytes > 0
            assert [slot.title for slot in slots.in_use(channel)] == ["PRINT"]
            read = [entry.record for entry in journal.read(channel, 1)]
            channel.close()
        assert read == records(bench)


@pytest.mark.parametrize("kind", KINDS)
def test_the_computer_may_go_and_come_back(tmp_path: Path, kind: str):
    with Bench(tmp_path) as bench:
        bench.switch_on()
        with serving(bench, kind) as address:
            for _ in range(3):
                channel = talk_to(address)
                assert channel.ask("status")["state"] == "idle"
                channel.close()


def test_real_time_and_faster(tmp_path: Path):
    for speed in (1.0, 20.0):
        with Bench(tmp_path) as bench:
            bench.switch_on()
            bench.run_for(1_000)
            begin_s, begin_ms = time.monotonic(), bench.now_ms
            with serving(bench, TCP, speed=speed):
                time.sleep(0.3)
            wall_ms, passed_ms = (time.monotonic() - begin_s) * 1000, bench.now_ms - begin_ms
            # A busy machine may lag, and then lets time go; it never runs ahead.
            assert 0.1 * speed * wall_ms <= passed_ms <= 1.05 * speed * wall_ms


def test_a_run_in_a_served_bench_with_a_real_foot(tmp_path: Path):
    with Bench(tmp_path) as bench:
        bench.switch_on()
        with serving(bench, TCP, speed=50.0) as address:
            channel = talk_to(address)
            sent(channel)
            for _ in range(2):
                bench.press()
                time.sleep(0.05)
                bench.release()
                time.sleep(0.05)
            status = channel.ask("status")
            channel.close()
        assert (status["state"], status["sheet"]) == ("ready", 1)


def test_a_pace_lets_go_what_it_cannot_make_up(tmp_path: Path):
    now_s = [0.0]
    with Bench(tmp_path) as bench:
        pace = Pace(bench, 2.0, clock=lambda: now_s[0])
        now_s[0] = 0.02
        pace.step()
        assert bench.now_ms == 40
        now_s[0] = 60.0
        pace.step()
        assert bench.now_ms == 140


@pytest.mark.parametrize("speed", [0.0, -1.0])
def test_no_pace_backwards(tmp_path: Path, speed: float):
    with pytest.raises(ValueError, match="speed"):
        Pace(Bench(tmp_path), speed)


def test_a_taken_tcp_port_is_one_clear_line(tmp_path: Path):
    with Bench(tmp_path / "a") as one, Bench(tmp_path / "b") as other, serving(one, TCP) as address:
        number = int(address.rsplit(":", 1)[1])
        with pytest.raises(ServeError, match=str(number)), serving(other, TCP, port=number):
            pass
