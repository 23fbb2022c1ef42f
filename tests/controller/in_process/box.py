"""Lamp and guard in the tests' own process, over the bench's chip and its virtual time.

The bench runs the firmware in processes of its own; here its parts are called one by one, which tells
what each does alone and lets every branch of it be counted.
"""

import importlib.util
import sys
import types
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[3]
CHIP = ROOT / "host" / "footlight" / "bench" / "box"
CONTROLLER = ROOT / "firmware" / "controller"
GATE, PUMP, REST = 2, 3, 4
FOR_EVER_US = 1 << 60


def load(name: str, path: Path) -> Any:
    """A module from its file, whatever goes by that name elsewhere."""
    spec = importlib.util.spec_from_file_location(name, path)
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    sys.modules[name] = module
    spec.loader.exec_module(module)
    return module


class Box:
    """A chip that is switched on, at time 0, with the pedal at rest."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        for name in ("world", "watchdog", "i2c", "machine", "rp2"):
            # Set first, so that the former state comes back when the test is over.
            monkeypatch.setitem(sys.modules, name, types.ModuleType(name))
            setattr(self, name, load(name, CHIP / f"{name}.py"))
        self.told = bytearray()
        self.time = self._module("world").begin(lambda: b"", self.told.extend, 0)
        self.time.limit_us = FOR_EVER_US
        self.machine = self._module("machine")
        self.rp2 = self._module("rp2")
        self.machine.begin()
        self.machine.names.update({GATE: "gate", PUMP: "pump"})
        self.foot(False)

    def _module(self, name: str) -> Any:
        return vars(self)[name]

    def controller(self, name: str) -> Any:
        """A file of the firmware, over this chip."""
        return load(f"{name}_in_process", CONTROLLER / f"{name}.py")

    def wait_ms(self, span_ms: int) -> None:
        """Time passes, whatever wakes the processor."""
        self.time.spend_us(span_ms * 1000)

    def foot(self, is_down: bool) -> None:
        """The pedal's rest contact opens or closes."""
        self.time.commands["pin"]([str(REST), str(int(is_down))])

    def level(self, pin: int) -> int:
        """Of a pin, now."""
        return self.machine.level_of(pin)

    def events(self, *kinds: str) -> list[tuple[int, str, str]]:
        """What has happened of these kinds since the last look: (ms, kind, text)."""
        self.time.flush()
        lines = [line.split(" ", 2) for line in self.told.decode().splitlines()]
        self.told.clear()
        return [(int(at) // 1000, kind, text) for at, kind, text in lines if kind in kinds]
