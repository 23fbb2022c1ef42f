"""A controller behind a serial server: Telnet with RFC 2217, by pyserial's own server half."""

import contextlib
import select
import socket
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import serial
from serial import rfc2217

from footlight.bench import Bench
from footlight.link import find, slots


class _Connection:
    """What the server half writes its own answers to."""

    def __init__(self, client: socket.socket) -> None:
        self._client = client

    def write(self, data: bytes) -> None:
        self._client.sendall(data)


def _serve_one(listener: socket.socket, bench: Bench, ending: threading.Event) -> None:
    client, _ = listener.accept()
    # The loop back stands for the settings of a port that has none; the bytes go to the bench.
    settings: Any = serial.serial_for_url("loop://")
    answers: Any = _Connection(client)
    manager = rfc2217.PortManager(settings, answers)
    stream = bench.stream()
    with client:
        while not ending.is_set():
            if select.select([client], [], [], 0.002)[0]:
                data = client.recv(1024)
                if not data:
                    return
                stream.write(b"".join(manager.filter(data)))
            back = stream.read(1024, 0.02)
            if back:
                client.sendall(b"".join(manager.escape(back)))


@contextlib.contextmanager
def serial_server(bench: Bench) -> Iterator[str]:
    """A bench behind a serial server -> its address."""
    ending = threading.Event()
    with socket.create_server(("127.0.0.1", 0)) as listener:
        thread = threading.Thread(target=_serve_one, args=(listener, bench, ending), daemon=True)
        thread.start()
        yield f"rfc2217://127.0.0.1:{listener.getsockname()[1]}"
        ending.set()
        thread.join(5)
        assert not thread.is_alive()


# pyserial's client half names its thread the old way.
@pytest.mark.filterwarnings("ignore::DeprecationWarning:serial.rfc2217")
def test_a_controller_behind_a_serial_server(tmp_path: Path):
    with Bench(tmp_path / "bench") as bench:
        bench.switch_on()
        bench.run_for(300)
        with serial_server(bench) as address:
            channel = find.connect(address)
            assert channel.greeting is not None and channel.greeting.agreed
            assert slots.in_use(channel) == [] and slots.limits(channel).slots == 8
            channel.close()
