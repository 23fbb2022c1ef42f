"""A page as its paragraphs and fenced blocks, with what the page says to the runner about each.

What the page says stands in comments that no reader of the page sees:
`<!-- not run: WHY -->` just before a block that is not to be run, and `<!-- feet: … -->`,
`<!-- later: … -->`, `<!-- edit: … -->` and `<!-- room: … -->` between blocks (see `stage`).
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

REPOSITORY = Path(__file__).parents[2]
_FENCE = re.compile(r"^\s*```(\S*)\s*$")
_TOLD = re.compile(r"^\s*<!-- (not run|feet|later|room|edit): (.+?) -->\s*$")
PROMPT = "$ "
_BEGINS = re.compile(r"\(?(footlight|make|pip|pipx|sudo|export|sleep|man|sqlite3|[A-Z0-9_]+=\S+)\b")
# Blocks that hold what is typed; "" is a block that names no language.
TYPED = ("console", "sh", "")


@dataclass(frozen=True)
class Block:
    """A fenced block. line: where its fence stands, from 1. reason: why it is not run, "" if it is."""

    language: str
    text: str
    line: int
    reason: str = ""


@dataclass(frozen=True)
class Told:
    """A word to the runner, between blocks."""

    word: str
    text: str
    line: int


@dataclass(frozen=True)
class Prose:
    """A paragraph."""

    text: str
    line: int


Part = Block | Told | Prose


def parts(text: str) -> Iterator[Part]:
    """Paragraphs, blocks and words of a page, in order.

    Raises ValueError for a mark that stands before no block.
    """
    lines = iter(enumerate(text.splitlines(), start=1))
    reason, reason_line = "", 0
    prose: list[str] = []
    number = 0
    for number, line in lines:
        is_prose = bool(line.strip()) and not _TOLD.match(line) and not _FENCE.match(line)
        if prose and not is_prose:
            yield Prose("\n".join(prose), number - len(prose))
            prose = []
        if told := _TOLD.match(line):
            if told[1] != "not run":
                yield Told(told[1], told[2], number)
                continue
            reason, reason_line = told[2], number
        elif fence := _FENCE.match(line):
            yield Block(fence[1], _until_fence(lines, number), number, reason)
            reason = ""
        elif reason and is_prose:
            raise ValueError(f"line {reason_line}: 'not run' stands before no block")
        elif is_prose:
            prose.append(line)
    if prose:
        yield Prose("\n".join(prose), number - len(prose) + 1)


def _until_fence(lines: Iterator[tuple[int, str]], opened: int) -> str:
    found = []
    for _, line in lines:
        if line.strip() == "```":
            return "\n".join(found)
        found.append(line)
    raise ValueError(f"line {opened}: the block is not closed")


@dataclass(frozen=True)
class Shown:
    """A command as a page shows it. output: what the page shows of its answer, None if it shows none."""

    line: str
    output: str | None
    number: int


def commands(block: Block) -> list[Shown]:
    """The commands of a block, in order; a backslash at the end of a line goes on with the next."""
    return _with_answers(block) if block.language == "console" else _without(block)


def _with_answers(block: Block) -> list[Shown]:
    found: list[Shown] = []
    for number, line in _joined(block):
        if line.startswith(PROMPT):
            found.append(Shown(line.removeprefix(PROMPT), "", number))
        elif not found:
            raise ValueError(f"line {number}: a console block begins with '{PROMPT}' and a command")
        else:
            last = found[-1]
            found[-1] = Shown(last.line, f"{last.output}{line.rstrip()}\n", last.number)
    return found


def _without(block: Block) -> list[Shown]:
    # A block of no language may be anything: only what begins with a command is one.
    wanted = (lambda line: True) if block.language == "sh" else _is_typed
    return [Shown(line, None, number) for number, line in _joined(block) if line.strip() and wanted(line)]


def _is_typed(line: str) -> bool:
    return (
        re.match(r"\(?(footlight|make|pip|pipx|sudo|export|sleep|man|sqlite3|[A-Z0-9_]+=\S+) ?", line)
        is not None
    )


def _joined(block: Block) -> Iterator[tuple[int, str]]:
    waiting = ""
    for number, line in enumerate(block.text.splitlines(), start=block.line + 1):
        waiting += line.lstrip() if waiting else line
        if waiting.endswith("\\"):
            waiting = waiting[:-1]
            continue
        yield number, waiting
        waiting = ""
