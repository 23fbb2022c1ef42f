"""One request at a time: lost, stale, doubled and foreign bytes; and what is said of who is there."""

import json
import random

import pytest
from tests.host.link.fakes import Box, BoxStream, FastClock, Spoil, TextStream

from footlight.link.channel import Channel
from footlight.link.errors import NotAControllerError, OtherMakeError, RefusedError, SilentError
from footlight.link.replies import Limits
from footlight.meanings import REPLIES
from footlight_core import session, wire


def channel_to(stream: object, tries: int = 4) -> Channel:
    return Channel(stream, tries=tries, clock=FastClock())  # type: ignore[arg-type]


def greeted(box: Box, spoil: Spoil = lambda count, reply: reply) -> tuple[Channel, BoxStream]:
    stream = BoxStream(box)
    channel = channel_to(stream)
    channel.greet()
    stream.spoil = spoil
    return channel, stream


def test_greeting_says_who_is_there():
    channel, _ = greeted(Box("box-7"))
    assert channel.greeting is not None
    assert (channel.greeting.id, channel.greeting.epoch, channel.greeting.agreed) == ("box-7", "e1", True)
    assert channel.ask_for(Limits, "limits").slots == wire.MAX_SLOTS


LEARNT = {"lamp": "HEAD", "level": 24_000, "dark": 90, "warm_ms": 40_000, "tail_ms": 40, "power": 1_000}


def test_every_reply_holds_what_the_wire_declares():
    channel, _ = greeted(Box())
    channel.stream.box.journal.add(5, "focus", gate_ms=1)  # type: ignore[attr-defined]
    params = {"records": {"first": 1}, "kept": {"last": 0}, "numbers": {"sheet": 7}}
    params |= {"fit": {"fitted": 1}, "learn": LEARNT}
    for name, keys in REPLIES.items():
        if keys is None or name in ("hello", "begin", "put", "commit", "clear"):
            continue
        assert set(channel.ask(name, **params.get(name, {}))) == set(keys), name


def test_lost_reply_is_asked_for_with_the_same_id():
    lose_first = lambda count, reply: b"" if count == 2 else reply  # noqa: E731
    channel, stream = greeted(Box(), lose_first)
    del stream.sent[:]
    assert channel.ask("slots") == {"slots": []}
    first, second = [line for line in bytes(stream.sent).split(b"\n") if line]
    assert first == second


def test_a_repeated_request_is_not_carried_out_twice():
    box = Box()
    box.store.held[3] = b'{"v":1,"title":"A","name":"a","steps":[{"kind":"pause","name":"p","show":"P"}]}'
    channel, _ = greeted(box, lambda count, reply: b"" if count == 2 else reply)
    # Carried out twice it would be refused: the slot is empty the second time.
    assert channel.ask("clear", slot=3) == {}


@pytest.mark.parametrize("seed", range(20))
def test_replies_spoiled_at_random_are_asked_for_again(seed: int):
    dice = random.Random(seed)

    def spoil(count: int, reply: bytes) -> bytes:
        if dice.random() < 0.6:
            return reply
        place = dice.randrange(len(reply))
        return dice.choice([b"", reply[:place], reply[:place] + b"\x00\xff" + reply[place + 1 :], b"noise\n"])

    channel, _ = greeted(Box(), spoil)
    channel._tries = 30  # so many that chance cannot end it
    assert [channel.ask("slots") for _ in range(10)] == [{"slots": []}] * 10


def test_stale_and_doubled_replies_are_ignored():
    last = [b""]

    def spoil(count: int, reply: bytes) -> bytes:
        before, last[0] = last[0], reply
        return before + b"MicroPython\r\n" + reply + reply

    channel, _ = greeted(Box(), spoil)
    assert channel.ask("slots") == {"slots": []}
    assert channel.ask_for(Limits, "limits").chunk == wire.CHUNK
    assert channel.ask("slots") == {"slots": []}


def test_after_a_restart_the_request_is_greeted_and_asked_again():
    box = Box()
    channel, _ = greeted(box)
    box.restart()
    assert channel.ask("slots") == {"slots": []}


def test_a_refusal_has_its_name():
    channel, _ = greeted(Box())
    with pytest.raises(RefusedError) as caught:
        channel.ask("clear", slot=1)
    assert caught.value.name == "no_slot"
    with pytest.raises(RefusedError) as caught:
        channel.ask("clear", slot=9)
    assert caught.value.name == "bad_params"


def test_silence_ends_after_bounded_tries():
    stream = TextStream(b"")
    with pytest.raises(SilentError, match="no answer; is the controller switched on"):
        channel_to(stream, tries=3).greet()
    assert stream.writes == 3


@pytest.mark.parametrize(
    ("stream", "said"),
    [
        (TextStream(b"\r\n>>> "), "a prompt answers"),
        (TextStream(b"\r\n>>> ", echo=True), "a prompt answers"),
        (TextStream(b"", echo=True), "sends back what it is sent"),
        (TextStream(b"ERROR\r\n\x00\xfe"), r"no controller \(it sent 'ERROR"),
        (TextStream(wire.frame({"jsonrpc": "2.0", "id": None, "error": {"code": 1}})), "no controller"),
    ],
)
def test_strangers_are_called_what_they_are(stream: TextStream, said: str):
    with pytest.raises(NotAControllerError, match=said):
        channel_to(stream).greet()


class AnswerStream(TextStream):
    """Answers every request with the same result or error, under its own id."""

    def __init__(self, **answer: object) -> None:
        super().__init__(b"")
        self._answer = answer

    def write(self, data: bytes) -> None:
        message, _ = wire.decode(data.strip())
        assert message is not None
        self._waiting += wire.frame({"jsonrpc": "2.0", "id": message["id"]} | self._answer)


def hello_of(**other: object) -> dict[str, object]:
    return {
        "protocol": 0,
        "least": wire.PROTOCOL_LEAST,
        "most": wire.PROTOCOL_MOST,
        "schema": "00000000",
        "build": session.BUILD,
        "id": "box",
        "epoch": "e",
        "agreed": False,
    } | other


@pytest.mark.parametrize(
    ("hello", "said"),
    [
        (hello_of(least=7, most=9), "speaks protocol 7 to 9, computer 1: update footlight on the computer"),
        (hello_of(least=0, most=0), "speaks protocol 0, computer 1: install the newer program on the contr"),
        (hello_of(build=session.BUILD + 1), "update footlight on the computer"),
        (hello_of(build=session.BUILD - 1), "install the newer program on the controller"),
        (hello_of(), "tables differ .00000000 and .*install the same version of footlight on both"),
    ],
)
def test_other_make_says_which_side_to_update(hello: dict[str, object], said: str):
    with pytest.raises(OtherMakeError, match=said) as caught:
        channel_to(AnswerStream(result=hello)).greet()
    assert "journal can be read" in str(caught.value)
    # The journal is read all the same.
    assert channel_to(AnswerStream(result=hello)).greet(any_make=True).agreed is False


@pytest.mark.parametrize(
    "answer",
    [
        {"error": {"code": -32602, "message": "expected: nonce, colour"}},
        {"error": {"code": -32601, "message": "known: hullo"}},
        {"result": {"name": "something else"}},
        {"result": hello_of(build="three")},
    ],
)
def test_a_greeting_of_another_shape_is_another_make(answer: dict[str, object]):
    with pytest.raises(OtherMakeError, match="install the same version"):
        channel_to(AnswerStream(**answer)).greet(any_make=True)


def test_requests_fit_in_a_frame():
    longest = {
        "jsonrpc": "2.0",
        "id": "0123abcd.1000000",
        "method": "put",
        "params": {"slot": 8, "offset": 6000, "data": wire.pack(b"\xff" * wire.CHUNK)},
    }
    assert len(wire.frame(json.loads(json.dumps(longest)))) <= wire.MAX_FRAME + 2
