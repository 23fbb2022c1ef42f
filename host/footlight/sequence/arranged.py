"""Steps and trays of a sequence's text moved, taken out and added, block by block: the comment above a step
goes with it, and nothing else in the file changes.

What comes out is read again, and refused where it does not say just what was wanted.
"""

import re
import tomllib
from dataclasses import dataclass
from typing import Any

from footlight.errors import InputError
from footlight.sequence import step_keys as keys
from footlight.sequence.keys import Key
from footlight.sequence.written_values import table_of

_HEADER = re.compile(r"\s*\[\[?\s*([^\[\]#]+?)\s*\]")
_STEP = re.compile(r"\s*\[\[\s*step\s*\]\]")
_TRAY = re.compile(r"\s*\[\s*trays\s*\.\s*(.+?)\s*\]")
# What a new step is called: names that the display can hold.
_NEW: dict[keys.StepKind, str] = {
    "bath": "bath",
    "light": "light",
    "by hand": "hand",
    "until pressed": "judge",
    "pause": "pause",
}


@dataclass
class _Block:
    """Lines that belong together. is_step: they are a step, its own tables included. tray: they are the tray
    of that name."""

    lines: list[str]
    is_step: bool = False
    tray: str = ""


def moved(text: str, number: int, to: int) -> str:
    """The text with step `number` in the place of step `to`, both from 1. Raises InputError."""
    blocks, steps = _split(text, number, to)
    order = list(range(len(steps)))
    order.insert(to - 1, order.pop(number - 1))
    contents = [blocks[steps[index]].lines for index in order]
    for place, lines in zip(steps, contents, strict=True):
        blocks[place].lines = lines
    return _joined(blocks, text, lambda raws: [raws[index] for index in order])


def without(text: str, number: int) -> str:
    """The text without step `number`, from 1. Raises InputError."""
    blocks, steps = _split(text, number)
    del blocks[steps[number - 1]]
    return _joined(blocks, text, lambda raws: raws[: number - 1] + raws[number:])


def with_step(text: str, kind: keys.StepKind, after: int) -> str:
    """The text with a new step of that kind behind step `after`, 0 for before all. Its values are the
    examples of the keys that it must have."""
    blocks, steps = _split(text)
    lines = ["[[step]]\n", f'kind = "{kind}"\n', f'name = "{_NEW[kind]}"\n']
    lines += [f"{key.example}\n" for key in _needed(kind)] + ["\n"]
    at = steps[after - 1] + 1 if 0 < after <= len(steps) else steps[0] if steps else len(blocks)
    blocks.insert(at, _Block(lines, is_step=True))
    new = tomllib.loads("".join(lines))["step"]
    return _joined(blocks, text, lambda raws: raws[:after] + new + raws[after:])


def with_tray(text: str, name: str) -> str:
    """The text with another tray behind the last. Raises InputError for a name that is there already."""
    if name in table_of(text).get("trays", {}):
        raise InputError(f"there is a tray '{name}' already; give another name")
    blocks, steps = _split(text)
    trays = [index for index, block in enumerate(blocks) if block.tray]
    at = trays[-1] + 1 if trays else steps[0] if steps else len(blocks)
    header = name if re.fullmatch(r"[A-Za-z0-9_-]+", name) else '"' + re.sub(r'["\\\n]', "", name) + '"'
    blocks.insert(at, _Block([f"[trays.{header}]\n", "\n"], tray=name))
    return _joined(blocks, text, lambda raws: raws)


def without_tray(text: str, name: str) -> str:
    """The text without that tray. Raises InputError for one that is not there, or is written otherwise."""
    blocks, _ = _split(text)
    kept = [block for block in blocks if block.tray != name]
    if len(kept) != len(blocks) - 1:
        raise InputError(f"there is no tray '{name}' with a table of its own; take it out by hand")
    return _joined(kept, text, lambda raws: raws)


def _needed(kind: keys.StepKind) -> list[Key]:
    """The keys that a step of that kind cannot be without, its kind and name apart."""
    needed = [key for key in keys.STEPS[kind] if key.is_required and key.name not in ("kind", "name")]
    dose = [key for key in keys.STEPS[kind] if key.name == "dose"]
    return needed + dose


def _split(text: str, *numbers: int) -> tuple[list[_Block], list[int]]:
    """The blocks of a text, and which of them are its steps. Raises InputError for a step that is not there,
    and where steps are not written one by one."""
    blocks = _blocks(text)
    steps = [index for index, block in enumerate(blocks) if block.is_step]
    raws = table_of(text).get("step", [])
    if not isinstance(raws, list) or len(raws) != len(steps):
        raise InputError("the steps are not written one by one under [[step]]; arrange them by hand")
    for number in numbers:
        if not 1 <= number <= len(steps):
            raise InputError(f"there is no step {number}; there are {len(steps)}")
    return blocks, steps


def _blocks(text: str) -> list[_Block]:
    blocks = [_Block([])]
    in_text = False
    for line in text.splitlines(keepends=True):
        header = None if in_text else _HEADER.match(line)
        own = blocks[-1].is_step and header is not None and header[1].startswith("step.")
        if header and not own:
            comments = _comments_above(blocks[-1].lines)
            tray = _TRAY.match(line)
            blocks.append(_Block(comments, bool(_STEP.match(line)), tray[1].strip("\"'") if tray else ""))
        blocks[-1].lines.append(line)
        in_text ^= (line.count('"""') + line.count("'''")) % 2 == 1
    return blocks


def _comments_above(lines: list[str]) -> list[str]:
    """Takes the comments that stand right above a header away from the block before it."""
    first = len(lines)
    while first and lines[first - 1].lstrip().startswith("#"):
        first -= 1
    taken = lines[first:]
    del lines[first:]
    return taken


def _joined(blocks: list[_Block], before: str, wanted: Any) -> str:
    for block in blocks[:-1]:
        # The last line of a file may have no end; in the middle it needs one.
        if block.lines and not block.lines[-1].endswith("\n"):
            block.lines[-1] += "\n"
    text = "".join(line for block in blocks for line in block.lines)
    if table_of(text).get("step", []) != wanted(table_of(before).get("step", [])):
        raise InputError("the form of this file does not let it be arranged safely; arrange it by hand")
    return text
