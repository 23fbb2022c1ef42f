"""What the controller holds as codes alone has words on the computer: every one, and no other."""

from footlight import meanings
from footlight_core import effects, states, wire


def test_every_refusal_has_its_meaning():
    assert set(meanings.REFUSALS) == {name for name, _ in wire.REFUSALS}


def test_every_message_has_its_reply():
    assert list(meanings.REPLIES) == [message[0] for message in wire.MESSAGES]


def test_every_fault_has_its_meaning():
    assert set(meanings.FAULTS) == {word for _, word in states.FAULTS}
    assert "ten seconds" in meanings.fault_text(states.STUCK_PEDAL)
    assert "99" in meanings.fault_text(99)


def test_sounds_stand_in_the_order_of_their_numbers():
    assert [getattr(effects, name.upper()) for name in meanings.SOUNDS] == list(range(len(meanings.SOUNDS)))
