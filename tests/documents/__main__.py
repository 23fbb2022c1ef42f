"""Writes into a page what its commands answer now: `python -m tests.documents docs/first-print.md`.

Only answers that the page does not show rightly are written anew; read them before you keep them.
"""

import sys
import tempfile
from pathlib import Path

from tests.documents.answers import agrees
from tests.documents.fences import PROMPT, TYPED, Block, commands, parts
from tests.documents.stage import Stage, stage
from tests.documents.test_pages import act_on, keep_file, why_not


def written(page: str) -> str:
    """The page with its answers as they are now."""
    lines = page.splitlines()
    moved = 0
    with tempfile.TemporaryDirectory() as folder, stage(Path(folder)) as room:
        for part in parts(page):
            if not isinstance(part, Block):
                act_on(room, part)
            elif part.language == "toml":
                keep_file(part)
            elif part.language in TYPED:
                fresh = _answered(room, part)
                begin, before = part.line + moved, len(part.text.splitlines())
                lines[begin : begin + before] = fresh
                moved += len(fresh) - before
    return "\n".join(lines) + "\n"


def _answered(room: Stage, block: Block) -> list[str]:
    if block.language != "console":
        for shown in commands(block):
            if not why_not(block, shown):
                room.run(shown.line)
        return block.text.splitlines()
    lines: list[str] = []
    typed = iter(_typed_lines(block))
    for shown in commands(block):
        said = room.run(shown.line).text
        kept = shown.output if agrees(shown.output or "", said) else said
        lines += [*next(typed), *(kept or "").rstrip("\n").splitlines()]
    return lines


def _typed_lines(block: Block) -> list[list[str]]:
    """Each command as it stands in the page, over several lines where it is."""
    found: list[list[str]] = []
    goes_on = False
    for line in block.text.splitlines():
        if line.startswith(PROMPT):
            found.append([line])
        elif goes_on:
            found[-1].append(line)
        else:
            continue
        goes_on = line.endswith("\\")
    return found


if __name__ == "__main__":
    for name in sys.argv[1:]:
        path = Path(name).resolve()
        path.write_text(written(path.read_text(encoding="utf-8")), encoding="utf-8")
