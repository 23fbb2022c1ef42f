"""Reading the journal: check sums verified here, gaps and damage said, nothing deleted before it is kept."""

import pytest
from tests.host.link.fakes import Box, BoxStream, FastClock

from footlight.link import journal
from footlight.link.channel import Channel
from footlight.link.errors import LinkError
from footlight_core import records


@pytest.fixture
def box() -> Box:
    box = Box()
    for number in range(1, 8):
        box.journal.add(number * 100, "focus", gate_ms=number)
    return box


def channel_to(box: Box) -> Channel:
    channel = Channel(BoxStream(box), clock=FastClock())
    channel.greet()
    return channel


def test_all_records_from_a_number(box: Box):
    entries = list(journal.read(channel_to(box), 3))
    assert [entry.number for entry in entries] == [3, 4, 5, 6, 7]
    assert [entry.record["gate_ms"] for entry in entries if entry.record] == [3, 4, 5, 6, 7]


def test_an_empty_journal():
    assert list(journal.read(channel_to(Box()), 1)) == []
    assert journal.extent(channel_to(Box())) == journal.Extent("e1", 1, 0)


def test_nothing_new(box: Box):
    assert list(journal.read(channel_to(box), 8)) == []


@pytest.mark.parametrize(
    "left",
    [
        "",
        '{"k":"focus","n":4,"t":400,"ga',
        records.seal({"k": "focus", "n": 5, "t": 400, "gate_ms": 4}).decode(),
        records.seal({"k": "focus", "n": 4, "t": 400, "gate_ms": 4}).decode()[:-1] + "x",
    ],
)
def test_a_damaged_record_is_said_and_the_rest_is_read(box: Box, left: str):
    box.journal.lines[4] = left
    entries = list(journal.read(channel_to(box), 1))
    assert [entry.number for entry in entries if not entry.whole] == [4]
    assert entries[3].line == left
    assert [entry.number for entry in entries] == list(range(1, 8))


def test_a_record_of_an_unknown_kind_is_whole(box: Box):
    box.journal.lines[4] = records.seal({"k": "unheard of", "n": 4, "t": 400}).decode()
    entry = list(journal.read(channel_to(box), 4))[0]
    assert entry.whole and entry.record is None


def test_what_was_deleted_is_not_asked_for(box: Box):
    channel = channel_to(box)
    assert journal.acknowledge(channel, 5)
    assert [entry.number for entry in journal.read(channel, 1)] == [6, 7]
    assert journal.extent(channel) == journal.Extent("e1", 6, 7)
    assert journal.acknowledge(channel, 7)
    assert list(journal.read(channel, 1)) == []


def test_a_run_under_way_puts_the_acknowledgement_off(box: Box):
    channel = channel_to(box)
    box.idle = False
    assert journal.acknowledge(channel, 7) is False
    assert len(box.journal.lines) == 7


def test_records_written_meanwhile_are_read_too(box: Box):
    numbers = []
    for entry in journal.read(channel_to(box), 6):
        numbers.append(entry.number)
        if entry.number == 6:
            box.journal.add(9000, "focus", gate_ms=9)
    assert numbers == [6, 7, 8]


def test_formatted_meanwhile(box: Box):
    reading = journal.read(channel_to(box), 1)
    next(reading)
    box.journal.epoch = "e2"
    with pytest.raises(LinkError, match="formatted"):
        list(reading)
