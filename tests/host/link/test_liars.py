"""A controller that lies, or is slow: bounded in time and space, one line, and nothing believed."""

import pytest
from tests.host.link.fakes import Box, BoxStream, FastClock

from footlight.link import journal
from footlight.link.channel import Channel
from footlight.link.errors import LinkError, OtherMakeError, SilentError
from footlight_core import records


def channel_to(box: Box) -> Channel:
    channel = Channel(BoxStream(box), clock=FastClock())
    channel.greet()
    return channel


@pytest.mark.parametrize(
    "lie",
    [
        {"sheet": -7},
        {"sheet": 10_000_000},
        {"run": 1 << 62},
        {"how": "a" * 65},
        {"how": "\x1b[2J"},
        {"real_ms": -1},
        {"step": True},
    ],
)
def test_a_record_that_says_what_none_can_is_kept_and_not_believed(lie: dict[str, object]):
    box = Box()
    told = {"run": 1, "step": 1, "sheet": 7, "start": 5, "real_ms": 10, "how": "time"}
    box.journal.add(100, "step", **told)
    box.journal.add(200, "step", **(told | lie))
    first, second = journal.read(channel_to(box), 1)
    assert first.whole and first.record and first.record["sheet"] == 7
    assert not second.whole and second.record is None and records.unseal(second.line.encode())


def test_a_journal_without_an_end_is_left(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(journal, "MOST_RECORDS", 20)
    box = Box()
    for _ in range(3):
        box.journal.add(1, "focus", gate_ms=1)
    taken = []
    with pytest.raises(LinkError, match="what came is kept"):
        for entry in journal.read(channel_to(box), 1):
            taken.append(entry.number)
            # More than is read, each time.
            box.journal.add(1, "focus", gate_ms=1)
            box.journal.add(1, "focus", gate_ms=1)
    assert taken == list(range(1, len(taken) + 1)) and 5 < len(taken) <= 20


def test_a_journal_longer_than_any_memory_is_refused_at_once():
    box = Box()
    box.journal.add(1, "focus", gate_ms=1)
    box.journal.state = lambda: {"epoch": "e1", "first": 1, "last": (1 << 31) - 1}
    with pytest.raises(LinkError, match="its memory holds no"):
        next(journal.read(channel_to(box), 1))


@pytest.mark.parametrize(
    "lie", [{"last": 1 << 62}, {"first": -1}, {"epoch": "e\x1b[2J"}, {"epoch": "e" * 65}]
)
def test_a_reach_that_is_none_is_refused(lie: dict[str, object]):
    box = Box()
    box.journal.add(1, "focus", gate_ms=1)
    box.journal.state = lambda: {"epoch": "e1", "first": 1, "last": 1} | lie
    with pytest.raises(OtherMakeError, match="has another shape"):
        list(journal.read(channel_to(box), 1))


class SlowStream(BoxStream):
    """A controller whose replies take `delay_s`, and are dropped when it is asked again meanwhile."""

    def __init__(self, box: Box, clock: FastClock, delay_s: float) -> None:
        super().__init__(box)
        self.clock, self.delay_s, self.due_s, self.held = clock, delay_s, 0.0, b""

    def write(self, data: bytes) -> None:
        super().write(data)
        self.held, self.due_s = super().read(100_000), self.clock() + self.delay_s

    def read(self, size: int) -> bytes:
        if not self.held:
            return b""
        if self.clock() < self.due_s:
            return self.held[:40] if self.delay_s > 60 else b""
        data, self.held = self.held, b""
        return data


@pytest.mark.parametrize("delay_s", [0.5, 1.5, 3.5, 7.0])
def test_a_slow_controller_is_waited_for(delay_s: float):
    clock = FastClock()
    channel = Channel(SlowStream(Box("box-7"), clock, delay_s), clock=clock)
    assert channel.greet().id == "box-7"


def test_one_that_is_too_slow_is_called_so():
    clock = FastClock()
    with pytest.raises(SilentError, match="answers, but too slowly"):
        Channel(SlowStream(Box(), clock, 100.0), clock=clock).greet()
