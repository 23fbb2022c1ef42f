"""Sending: resumed wherever it was cut, done once however often it is sent; until then the old one stays."""

from collections.abc import Callable

import pytest
from tests.host.link.fakes import Box, BoxStream, FastClock, program_bytes, sha_of

from footlight.link import slots, upload
from footlight.link.channel import Channel
from footlight.link.errors import LinkError, PortError, RefusedError, SilentError
from footlight.link.replies import Slot

DATA = program_bytes("PENCIL", 12)
OLD = program_bytes("PENCIL", 3)


def channel_to(stream: BoxStream) -> Channel:
    channel = Channel(stream, tries=3, clock=FastClock())
    channel.greet()
    return channel


def send(channel: Channel, data: bytes = DATA, **more: object) -> upload.Delivery:
    return upload.send(channel, data, sha_of(data), "PENCIL", **more)  # type: ignore[arg-type]


def test_a_program_arrives_whole_and_progress_is_told():
    box, told = Box(), []
    sent = send(channel_to(BoxStream(box)), progress=lambda there, total: told.append((there, total)))
    assert sent == upload.Delivery(1, "PENCIL", sha_of(DATA), len(DATA))
    assert box.store.held == {1: DATA}
    assert told[0] == (0, len(DATA)) and told[-1] == (len(DATA), len(DATA))
    assert [there for there, _ in told] == sorted(there for there, _ in told)


def test_sending_again_moves_nothing():
    box = Box()
    send(channel_to(BoxStream(box)))
    assert send(channel_to(BoxStream(box))).moved_bytes == 0
    assert box.store.commits == 1


class CutStream(BoxStream):
    """Breaks, or falls silent, after so many bytes were written."""

    def __init__(self, box: Box, left: int, broken: bool) -> None:
        super().__init__(box)
        self.left = left
        self.broken = broken

    def write(self, data: bytes) -> None:
        super().write(data[: self.left])
        self.left = max(0, self.left - len(data))
        if self.broken and self.left == 0:
            raise PortError("fake port: the connection broke")


@pytest.mark.parametrize("broken", [True, False])
def test_cut_at_every_thirteenth_byte_and_resumed(broken: bool):
    whole = CutStream(Box(), 1 << 30, broken)
    whole.box.store.held[1] = OLD
    channel = channel_to(whole)
    greeting_bytes = len(whole.sent)
    send(channel)
    for cut in range(1, len(whole.sent) - greeting_bytes, 13):
        box = Box()
        box.store.held[1] = OLD
        stream = CutStream(box, greeting_bytes + cut, broken)
        channel = channel_to(stream)
        with pytest.raises(LinkError):
            send(channel)
        assert box.store.held[1] in (OLD, DATA)
        arrived = len(box.store.arriving[1][2]) if 1 in box.store.arriving else 0
        sent = send(channel_to(BoxStream(box)))
        assert box.store.held == {1: DATA}
        if sent.moved_bytes:
            assert sent.moved_bytes == len(DATA) - arrived
        assert box.store.commits == 1


def test_silence_says_how_far_and_that_the_old_one_is_kept():
    box = Box()
    box.store.held[1] = OLD
    stream = CutStream(box, 1400, broken=False)
    with pytest.raises(SilentError, match=r"silent after \d+ of \d+ bytes; slot 1 holds what it held before"):
        send(channel_to(stream))
    assert box.store.held[1] == OLD


@pytest.mark.parametrize("restart_at", range(4, 12))
def test_a_restart_in_between_only_costs_the_bytes(restart_at: int):
    box = Box()
    stream = BoxStream(box)

    def restart(count: int, reply: bytes) -> bytes:
        if count == restart_at:
            box.restart()
        return reply

    stream.spoil = restart
    send(channel_to(stream))
    assert box.store.held == {1: DATA}


def test_restarting_again_and_again_ends():
    box = Box()
    stream = BoxStream(box)
    channel = channel_to(stream)
    stream.spoil = lambda count, reply: (box.restart(), reply)[1] if b'"offset"' in reply else reply
    with pytest.raises(LinkError, match="again and again"):
        send(channel)


def refused(act: Callable[[], object], name: str, said: str) -> None:
    with pytest.raises(RefusedError, match=said) as caught:
        act()
    assert caught.value.name == name


def test_a_run_under_way_refuses_and_says_what_to_do():
    box = Box()
    channel = channel_to(BoxStream(box))
    box.idle = False
    refused(lambda: send(channel), "busy", "leave it at the pedal; slot 1 holds what it held before")


def test_a_program_that_the_controller_will_not_run():
    box = Box()
    box.store.held[1] = OLD
    bad = DATA.replace(b'"time_ms":60000', b'"time_ms":10000000000', 1)
    refused(
        lambda: send(channel_to(BoxStream(box)), bad),
        "bad_program",
        "will not run this .* .step 1: time_ms",
    )
    assert box.store.held == {1: OLD}


def test_too_long_for_the_controller():
    with pytest.raises(LinkError, match="7000 bytes long .* takes 6144"):
        send(channel_to(BoxStream(Box())), b" " * 7000)


def test_slot_choice():
    used = [Slot(1, "FLASH", "a"), Slot(2, "PENCIL", "b"), Slot(4, "STRIP", "c")]
    assert slots.choose(used, "PENCIL", 8) == 2
    assert slots.choose(used, "NEW", 8) == 3
    assert slots.choose([], "NEW", 8) == 1
    full = [Slot(number, f"T{number}", "x") for number in range(1, 9)]
    with pytest.raises(slots.NoFreeSlotError, match="no free slot for 'NEW': 1 T1, 2 T2, .*clear NUMBER"):
        slots.choose(full, "NEW", 8)


def test_the_named_slot_is_replaced():
    box = Box()
    box.store.held = {1: program_bytes("FLASH"), 2: program_bytes("STRIP")}
    assert send(channel_to(BoxStream(box)), slot=2).slot == 2
    assert box.store.held[2] == DATA and box.store.held[1] == program_bytes("FLASH")
