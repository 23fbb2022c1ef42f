"""The lamp's driver, tried by the pedal alone, in the firmware's set-up light; only its state is asked."""

import time
from typing import Any

from footlight.errors import act
from footlight.install.errors import InstallError
from footlight.install.maker import Check, Maker
from footlight.link.channel import Channel
from footlight.meanings import fault_text
from footlight_core import states

_WAIT_S = 180.0
_LOOK_S = 0.1


def try_lamp(channel: Channel, maker: Maker) -> list[Check]:
    """Lit by letting go, dark by pressing; then by pulling the pedal's plug."""
    maker.ready("No lamp in the relay module, no paper out; watch the red LED1 and the lamp relay.")
    maker.say("By short presses to FOCUS, then one long press: the set-up light is ready.")
    _await(channel, maker, states.FOCUS)
    dark = maker.confirm("LED1 is dark?")
    maker.say("A short press: as you let go it lights. Press again: it goes dark.")
    pressed = _lit_once(channel, maker, states.FOCUS)
    seen = maker.confirm("LED1 lit as you let go, and dark at the very press?")
    maker.say("Light it once more by the pedal; while it is lit, pull the pedal's plug.")
    pulled = _lit_once(channel, maker, states.FOCUS, states.FAULT)
    gone = maker.confirm("LED1 went dark as the plug came out?")
    maker.ready("Put the plug in again; a long press takes the fault away and another leaves FOCUS.")
    return [
        Check("lamp", "dark before", dark),
        Check("lamp", "lit by letting go, dark by a press", seen, pressed),
        Check("lamp", "dark when the pedal's plug is pulled", gone, pulled),
    ]


def _lit_once(channel: Channel, maker: Maker, *ends: str) -> str:
    _await(channel, maker, states.FOCUS_LIT)
    start_s = time.monotonic()
    _await(channel, maker, *ends)
    return f"lit for about {time.monotonic() - start_s:.1f} s"


def _await(channel: Channel, maker: Maker, *wanted: str) -> None:
    """Look at the controller's state until it is one of these."""
    deadline_s, shown = time.monotonic() + _WAIT_S, ""
    while True:
        status = channel.ask("status")
        if status["state"] != shown:
            shown = status["state"]
            maker.say(f"  {shown}{_fault(status)}")
        if shown in wanted:
            return
        if time.monotonic() > deadline_s:
            raise InstallError(
                f"{channel.name}: '{wanted[0]}' was not reached by the pedal; "
                f"try the pedal first ({act('bringup --part pedal')}), then repeat"
            )
        time.sleep(_LOOK_S)


def _fault(status: dict[str, Any]) -> str:
    code = status.get("fault", states.NO_FAULT)
    if status["state"] != states.FAULT:
        return ""
    return f" {states.fault_word(code)}: {fault_text(code)}; mend it, then a long press"
