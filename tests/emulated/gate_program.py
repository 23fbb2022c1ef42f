"""The lamp's PIO program, taken from `lamp.py` itself and assembled with no chip.

Its decorator gets a recording stand-in for `rp2`, and its body runs with functions in the instructions'
names that write one line of PIO assembly each; a general-purpose assembler makes the opcodes.
"""

import importlib.util
import sys
import types
from pathlib import Path
from typing import Any

import adafruit_pioasm

CONTROLLER = Path(__file__).parents[2] / "firmware" / "controller"
LAMP = CONTROLLER / "lamp.py"
COUNTDOWN = CONTROLLER / "countdown.py"
_SIDE_SET_BITS = 2


class Declared:
    """What `@rp2.asm_pio(...)` was given: the options and the function that holds the program."""

    def __init__(self, function: types.FunctionType, options: dict[str, Any]) -> None:
        self.function = function
        self.options = options


class _Line:
    """One instruction; `.side(n)` completes it."""

    def __init__(self, lines: list[str], text: str) -> None:
        self._lines = lines
        self._lines.append(text)

    def side(self, value: int) -> None:
        self._lines[-1] += f" side {value}"

    def __getitem__(self, cycles: int) -> None:
        self._lines[-1] += f" [{cycles}]"


def _recorder() -> types.ModuleType:
    module = types.ModuleType("rp2")
    pio = types.SimpleNamespace(OUT_LOW="low", OUT_HIGH="high", SHIFT_LEFT="left", SHIFT_RIGHT="right")
    vars(module).update(PIO=pio, asm_pio=lambda **options: lambda function: Declared(function, options))
    return module


def lamp_module(rp2: types.ModuleType | None = None, path: Path | None = None) -> types.ModuleType:
    """The firmware's lamp.py, or another file, imported over the given `rp2`, or over the recording one."""
    before = sys.modules.get("rp2")
    sys.modules["rp2"] = rp2 or _recorder()
    try:
        path = path or LAMP  # asked now: a planted bug stands in another file
        spec = importlib.util.spec_from_file_location(f"{path.stem}_under_test", path)
        assert spec and spec.loader
        module = importlib.util.module_from_spec(spec)
        spec.loader.exec_module(module)
        return module
    finally:
        if before is None:
            del sys.modules["rp2"]
        else:
            sys.modules["rp2"] = before


def assembly() -> str:
    """The program as PIO assembly text."""
    lines: list[str] = []
    program = lamp_module().exposure.function
    types.FunctionType(program.__code__, _instructions(lines))()
    return "\n".join([f".side_set {_SIDE_SET_BITS}", *lines])


def countdown_assembly() -> str:
    """The program that sends the word of a counted light's end."""
    lines: list[str] = []
    program = lamp_module(path=COUNTDOWN).countdown.function
    types.FunctionType(program.__code__, _instructions(lines))()
    return "\n".join(lines)


def opcodes() -> list[int]:
    """The program as the chip holds it."""
    return list(adafruit_pioasm.Program(assembly()).assembled)


def _instructions(lines: list[str]) -> dict[str, Any]:
    def say(text: str) -> _Line:
        return _Line(lines, text)

    conditions = {"not_x": "!x", "x_dec": "x--", "y_dec": "y--", "pin": "pin"}
    words = ("block", "noblock", "x", "y", "osr", "isr", *conditions)
    names: dict[str, Any] = {name: name for name in words}
    return names | {
        "label": lambda name: lines.append(f"{name}:"),
        "pull": lambda how: say(f"pull {how}"),
        "push": lambda how: say(f"push {how}"),
        "out": lambda target, bits: say(f"out {target}, {bits}"),
        "in_": lambda source, bits: say(f"in {source}, {bits}"),
        "set": lambda target, value: say(f"set {target}, {value}"),
        "mov": lambda target, source: say(f"mov {target}, {source}"),
        "jmp": lambda *words: say(" ".join(["jmp", *[conditions.get(w) or w for w in words]])),
    }
