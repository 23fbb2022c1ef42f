"""The link and the notebook against the real firmware: on the bench, in virtual time, over a pty and TCP."""

import hashlib
import json
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.system.wires import CutStream, stranger, tool

from footlight import examples
from footlight.actions import collect_journal
from footlight.bench import Bench
from footlight.bench.serve import serving
from footlight.link import channel as channels
from footlight.link import find, journal, slots, transport, upload
from footlight.link.channel import Channel
from footlight.link.errors import LinkError, NotAControllerError, OtherMakeError, SilentError
from footlight.meanings import REPLIES
from footlight.notebook.book import notebook
from footlight.notebook.journal import programs
from footlight.notebook.sheets import by_number
from footlight_core import wire

NOW = 1_772_388_000
EXAMPLE = Path(next(iter(examples.__path__))) / "reversal-print.toml"
KINDS = ["tcp"] if sys.platform == "win32" else ["pty", "tcp"]
NO_PTY = pytest.mark.skipif(sys.platform == "win32", reason="no pseudo-terminals on this system")


def program_of(title: str, steps: list[dict[str, object]]) -> bytes:
    lamps = [{"name": "ENL", "cap_ms": 30_000, "window_ms": 60_000}]
    raw = {"v": 1, "title": title, "name": title.lower(), "lamps": lamps, "steps": steps}
    return wire.dumps(raw).encode()


def bath(number: int, time_ms: int = 60_000) -> dict[str, object]:
    return {"kind": "bath", "name": f"bath number {number}", "show": f"BATH{number}", "time_ms": time_ms}


OLD = program_of("PENCIL", [bath(1)])
NEW = program_of("PENCIL", [bath(number) for number in range(1, 21)])


def sha_of(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def send(channel: Channel, data: bytes, title: str = "PENCIL") -> upload.Delivery:
    return upload.send(channel, data, sha_of(data), title)


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    with Bench(tmp_path / "bench") as bench:
        bench.switch_on()
        bench.run_for(300)
        yield bench


def greeted(bench: Bench, unix_s: int = 0) -> Channel:
    stream = bench.stream()
    channel = Channel(stream, clock=stream.clock)
    channel.greet(unix_s)
    return channel


# -- in virtual time -------------------------------------------------------------------------------


def test_every_reply_holds_what_the_wire_declares(bench: Bench):
    channel = greeted(bench, NOW)
    params = {"records": {"first": 1}, "kept": {"last": 0}}
    for name, keys in REPLIES.items():
        if keys is not None and name in ("limits", "slots", "records", "kept"):
            assert set(channel.ask(name, **params.get(name, {}))) == set(keys), name


def cut_and_resume(bench: Bench, cut: int, power: bool) -> int:
    """One upload of NEW over OLD, cut after `cut` bytes; returns the bytes that the second had to move."""
    channel = greeted(bench)
    for slot in slots.in_use(channel):
        slots.clear(channel, slot.number)
    send(channel, OLD)
    stream = bench.stream()
    broken = Channel(CutStream(stream, 1 << 30), clock=stream.clock)
    broken.greet()
    broken.stream.left = cut  # type: ignore[attr-defined]
    with pytest.raises(LinkError):
        send(broken, NEW)
    if power:
        bench.cut_power()
        bench.switch_on()
        bench.run_for(300)
    again = greeted(bench)
    held = slots.in_use(again)
    assert [slot.sha for slot in held] in ([sha_of(OLD)[:16]], [sha_of(NEW)[:16]])
    moved = send(again, NEW).moved_bytes
    assert [slot.sha for slot in slots.in_use(again)] == [sha_of(NEW)[:16]]
    return moved


def upload_bytes() -> int:
    """How many bytes the computer sends for NEW, from `limits` on."""
    frames = (
        [("limits", {}), ("slots", {}), ("begin", {"slot": 1, "sha256": sha_of(NEW), "length": len(NEW)})]
        + [
            ("put", {"slot": 1, "offset": at, "data": wire.pack(NEW[at : at + wire.CHUNK])})
            for at in range(0, len(NEW), wire.CHUNK)
        ]
        + [("commit", {"slot": 1, "sha256": sha_of(NEW)})]
    )
    return sum(
        len(wire.frame({"jsonrpc": "2.0", "id": "0123abcd.10", "method": name, "params": params}))
        for name, params in frames
    )


@pytest.mark.parametrize("power", [False, True], ids=["cable", "power"])
def test_cut_at_many_bytes_and_resumed(bench: Bench, power: bool):
    total = upload_bytes()
    moved = [cut_and_resume(bench, cut, power) for cut in range(1, total - 40, 311 if power else 97)]
    # The later the cut, the less is left to move; at last nothing or the commit alone.
    assert moved == sorted(moved, reverse=True)
    assert moved[0] == len(NEW) and moved[-1] < wire.CHUNK


def test_a_journal_brought_twice_and_the_light_that_was_given(bench: Bench, tmp_path: Path):
    steps = [
        bath(1, 5_000),
        {"kind": "light", "name": "second", "show": "LIGHT", "time_ms": 4_000, "dead_ms": 50},
        bath(2, 5_000),
    ]
    data, book = program_of("PENCIL", steps), tmp_path / "notebook.sqlite"
    with notebook(book, writing=True) as connection:
        kept = programs.Sequence(sha_of(data), "PENCIL", "pencil", data.decode(), "", "")
        programs.store(connection, kept, NOW)
    send(greeted(bench, NOW), data)
    lit_us: list[int] = []
    bench.listeners.append(lambda event: lit_us.append(event.t_us) if event.kind == "gate" else None)
    walk_through(bench)
    home = collect_journal.bring_home(greeted(bench, NOW + 60), book, NOW + 60)
    assert home.acknowledged and home.brought.sheets == {1} and not home.brought.damaged
    again = collect_journal.bring_home(greeted(bench), book, NOW + 61)
    assert (again.brought.new, again.missing, again.behind) == (0, None, None)

    with notebook(book, writing=False) as connection:
        (part,) = by_number.story(connection, by_number.find(connection, 1)).runs
    first, light, second = part.rows
    assert isinstance(first, by_number.BathRow) and isinstance(light, by_number.LightRow)
    assert isinstance(second, by_number.BathRow)
    assert (part.title, part.ended, first.name, first.planned_ms) == (
        "PENCIL",
        "whole",
        "bath number 1",
        5_000,
    )
    assert first.difference_ms == pytest.approx(2_000, abs=250)
    assert light.planned_ms == light.least_ms == light.most_ms == 4_000
    # The journal's gate time against the gate itself.
    gate_ms = [(off - on) / 1000 for on, off in zip(lit_us[::2], lit_us[1::2], strict=True)]
    assert light.parts == pytest.approx(gate_ms, abs=1)
    assert len(light.parts) == 2 and light.gate_ms == pytest.approx(4_100, abs=2)
    assert part.when.from_unix_s == part.when.to_unix_s
    assert part.when.from_unix_s == pytest.approx(NOW, abs=30)


def walk_through(bench: Bench) -> None:
    """Feet: arm, first bath two seconds over, light stopped and resumed, second bath in time."""
    bench.run_for(1000)
    bench.hold()
    bench.run_for(1000)
    bench.hold()
    bench.run_for(1000)
    bench.tap()
    bench.run_for(6_800)
    bench.tap()
    bench.run_for(1000)
    bench.tap()
    bench.run_for(1500)
    bench.tap()
    bench.run_for(1000)
    bench.tap()
    bench.run_for(4000)
    bench.tap()
    bench.run_for(5_500)
    bench.tap()
    bench.run_for(500)


def test_nothing_is_changed_in_a_run_and_the_journal_is_read_all_the_same(bench: Bench, tmp_path: Path):
    send(greeted(bench), OLD)
    bench.hold()
    bench.run_for(1000)
    bench.hold()
    bench.run_for(1000)
    channel = greeted(bench)
    assert channel.ask("status")["state"] == "ready"
    with pytest.raises(LinkError, match="finish it or leave it at the pedal; slot 1 holds what"):
        send(channel, NEW)
    home = collect_journal.bring_home(channel, tmp_path / "notebook.sqlite", NOW)
    assert home.brought.new and not home.acknowledged


def test_other_make_is_refused_and_its_journal_read(
    bench: Bench, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
):
    monkeypatch.setattr(channels.session, "schema", lambda: "00000000")
    stream = bench.stream()
    channel = Channel(stream, clock=stream.clock)
    with pytest.raises(OtherMakeError, match="tables differ"):
        channel.greet()
    channel.greet(any_make=True)
    with pytest.raises(LinkError, match="only the journal can be read"):
        channel.ask("slots")
    assert collect_journal.bring_home(channel, tmp_path / "notebook.sqlite", NOW).brought.new > 0


def test_no_free_slot_names_what_is_there(bench: Bench):
    channel = greeted(bench)
    for number in range(1, wire.MAX_SLOTS + 1):
        send(channel, program_of(f"T{number}", [bath(number)]), f"T{number}")
    with pytest.raises(slots.NoFreeSlotError, match="1 T1, 2 T2, .* 8 T8; .*clear NUMBER"):
        send(channel, NEW)
    slots.clear(channel, 5)
    assert send(channel, NEW).slot == 5


# -- over real ports -------------------------------------------------------------------------------


@pytest.mark.parametrize("kind", KINDS)
def test_the_commands_over_a_port(bench: Bench, tmp_path: Path, kind: str):
    book = tmp_path / "notebook.sqlite"
    with serving(bench, kind) as port:
        sent = tool("send", EXAMPLE, "--port", port, "--notebook", book, home=tmp_path)
        assert (sent.code, sent.out[:19]) == (0, "PRINT is in slot 1:"), sent
        again = tool("send", EXAMPLE, "--port", port, "--notebook", book, "--json", home=tmp_path)
        assert json.loads(again.out)["bytes_moved"] == 0
        listed = json.loads(tool("slots", "--port", port, "--json", home=tmp_path).out)
        assert [slot["title"] for slot in listed["used"]] == ["PRINT"]
        watched = tool("watch", "--port", port, "--notebook", book, "--once", "--json", home=tmp_path)
        assert json.loads(watched.out)["state"] == "idle" and "fog paper" in watched.err
        first = tool("collect", "--port", port, "--notebook", book, "--json", home=tmp_path)
        second = tool("collect", "--port", port, "--notebook", book, "--json", home=tmp_path)
        assert json.loads(first.out)["new"] > 0
        # Each greeting leaves one date in the journal, and nothing else has happened.
        assert json.loads(second.out)["new"] == 1
        found = tool("find", port, home=tmp_path)
        assert found.code == 0 and "ready" in found.out
        cleared = tool("clear", 1, "--port", port, home=tmp_path)
        assert cleared.out == "slot 1 is empty now; it held PRINT\n"


@pytest.mark.parametrize("kind", KINDS)
def test_cut_at_some_bytes_over_a_port(bench: Bench, kind: str):
    with serving(bench, kind) as port:
        for cut in range(200, upload_bytes(), 997):
            channel = find.connect(port)
            send(channel, OLD)
            channel.stream = CutStream(channel.stream, cut)
            with pytest.raises(LinkError):
                send(channel, NEW)
            channel.close()
            channel = find.connect(port)
            assert slots.in_use(channel)[0].sha in (sha_of(OLD)[:16], sha_of(NEW)[:16])
            send(channel, NEW)
            assert slots.in_use(channel)[0].sha == sha_of(NEW)[:16]
            channel.close()


@pytest.mark.parametrize("kind", KINDS)
def test_silent_in_mid_upload_and_the_old_one_still_there(bench: Bench, kind: str):
    with serving(bench, kind) as port:
        stream = transport.open_stream(port)
        channel = Channel(stream, patience_s=0.3, tries=2)
        channel.greet()
        send(channel, OLD)

        def cut(there: int, total: int) -> None:
            if there >= total // 2:
                bench.cut_power()

        with pytest.raises(SilentError, match=r"silent after \d+ of \d+ bytes; slot 1 holds what it"):
            upload.send(channel, NEW, sha_of(NEW), "PENCIL", progress=cut)
        stream.close()
        bench.switch_on()
        channel = find.connect(port)
        assert [slot.sha for slot in slots.in_use(channel)] == [sha_of(OLD)[:16]]
        assert 0 < send(channel, NEW).moved_bytes <= len(NEW) // 2
        channel.close()


@NO_PTY
@pytest.mark.parametrize(
    ("answer", "said"),
    [
        (None, "sends back"),
        (b"\r\n>>> ", "a prompt answers"),
        (b"+OK\r\n", "no controller"),
        (b"", "no answer"),
    ],
)
def test_a_port_that_is_not_a_controller(answer: bytes | None, said: str):
    with stranger(answer) as port:
        look = find.look_at(port)
        assert look.greeting is None and said in look.trouble and port in look.trouble


@NO_PTY
def test_a_stranger_is_one_clear_line(tmp_path: Path):
    with stranger(None) as port:
        said = tool("slots", "--port", port, home=tmp_path)
    assert said.code == NotAControllerError.exit_code and said.out == ""
    assert said.err.startswith(f"footlight: {port}: it sends back") and said.err.count("\n") == 1


def test_the_journal_is_verified_on_the_computer(bench: Bench):
    entries = list(journal.read(greeted(bench, NOW), 1))
    assert [entry.record["k"] for entry in entries if entry.record] == ["boot", "date"]
