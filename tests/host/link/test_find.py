"""None, one and several controllers are three different answers; only likely ports are spoken to."""

from collections.abc import Mapping

import pytest
from tests.host.link.fakes import Box, BoxStream, TextStream

from footlight.errors import InputError
from footlight.link import find, transport
from footlight.link.channel import Stream
from footlight.link.errors import LinkError, NoControllerError, PortError, SeveralControllersError
from footlight.link.transport import Port


def opener(streams: Mapping[str, Stream | LinkError]):
    opened: list[str] = []

    def open_stream(address: str) -> Stream:
        opened.append(address)
        stream = streams[address]
        if isinstance(stream, LinkError):
            raise stream
        return stream

    return open_stream, opened


BOX_PORT = Port("/dev/one", "board", True)
OTHER_PORT = Port("/dev/printer", "something that bytes would upset", False)


def test_one_is_taken_and_others_are_left_alone():
    open_stream, opened = opener({"/dev/one": BoxStream(Box("box-1"))})
    channel = find.connect(None, open_stream=open_stream, list_ports=lambda: [OTHER_PORT, BOX_PORT])
    assert channel.greeting is not None and channel.greeting.id == "box-1"
    assert "/dev/printer" not in opened


def test_none_is_an_answer_of_its_own():
    open_stream, _ = opener({})
    with pytest.raises(NoControllerError, match="plug its cable in"):
        find.connect(None, open_stream=open_stream, list_ports=lambda: [OTHER_PORT])


def test_none_says_what_was_wrong_with_each_likely_port():
    streams = {"/dev/one": PortError("/dev/one: not allowed"), "/dev/two": TextStream(b">>> ")}
    open_stream, _ = opener(streams)
    looks = find.look_everywhere([BOX_PORT, Port("/dev/two", "", True)], open_stream)
    with pytest.raises(NoControllerError, match="/dev/one: not allowed; fake port: a prompt answers"):
        find.choose(looks)


def test_several_are_named():
    streams = {"/dev/one": BoxStream(Box("box-1")), "/dev/two": BoxStream(Box("box-2"))}
    open_stream, _ = opener(streams)
    ports = [BOX_PORT, Port("/dev/two", "", True)]
    with pytest.raises(
        SeveralControllersError, match=r"/dev/one \(box-1\), /dev/two \(box-2\).*name one with port"
    ):
        find.connect(None, open_stream=open_stream, list_ports=lambda: ports)


def test_three_answers_have_three_exit_codes():
    codes = {error.exit_code for error in (LinkError, NoControllerError, SeveralControllersError)}
    assert len(codes) == 3 and 0 not in codes


@pytest.mark.parametrize(
    ("address", "said"),
    [
        ("/dev/no-such-port", "no such port; find lists"),
        (__file__, "no serial port"),
        ("socket://127.0.0.1:9", "nobody listens there"),
    ],
)
def test_ports_that_cannot_be_opened(address: str, said: str):
    with pytest.raises(PortError, match=said):
        transport.open_stream(address)


def test_an_address_of_an_unknown_kind():
    with pytest.raises(InputError, match="'ftp://x' is no port"):
        transport.open_stream("ftp://x")


def test_no_permission_names_the_group(monkeypatch: pytest.MonkeyPatch):
    def deny(*args: object, **kwargs: object):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(transport.serial, "serial_for_url", deny)
    monkeypatch.setattr(transport.sys, "platform", "linux")
    with pytest.raises(PortError, match="usermod -aG dialout .* udev"):
        transport.open_stream("/dev/one")


def test_a_loop_back_is_no_controller():
    assert "sends back what it is sent" in find.look_at("loop://").trouble
