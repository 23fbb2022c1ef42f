"""Every command that a page shows is run, in the page's order, and answers what the page says.

What is not run is marked in the page with the reason, and listed here: a command may not slip out of the
test by a mark that nobody counted.
"""

from collections import Counter
from pathlib import Path

import pytest
from tests.documents.answers import agrees
from tests.documents.fences import REPOSITORY, TYPED, Block, Shown, Told, commands, parts
from tests.documents.stage import Stage, stage

PAGES = sorted(path for folder in (".", "docs", "hardware") for path in (REPOSITORY / folder).glob("*.md"))
# Its examples are those of the help, which `test_mentions` looks up.
MADE = "docs/reference-commands.md"
# Programs of others, which pages may show; they are counted below and not run.
OTHERS = ("make", "pip", "pipx", "man", "mandoc", "sqlite3")
BOARD, PIPE = "needs a board", "a pipe with pauses; tests/system/test_live.py sends such words"
# (page, reason, or the program that is none of ours) -> how many of its commands are not run.
NOT_RUN: dict[tuple[str, str], int] = {
    ("README.md", "make"): 2,
    ("docs/bench.md", PIPE): 1,
    ("docs/chip.md", "needs an image"): 2,
    ("docs/first-print.md", "pipx"): 1,
    ("docs/how-to.md", BOARD): 2,
    ("docs/install.md", "make"): 1,
    ("docs/install.md", "pipx"): 2,
    ("docs/install.md", BOARD): 3,
    ("docs/install.md", "changes the system's rules"): 2,
}


def _named(path: Path) -> str:
    return path.relative_to(REPOSITORY).as_posix()


def _blocks(path: Path) -> list[Block]:
    return [part for part in parts(path.read_text(encoding="utf-8")) if isinstance(part, Block)]


def _page_commands(path: Path) -> list[Shown]:
    return [shown for block in _blocks(path) if block.language in TYPED for shown in commands(block)]


@pytest.mark.parametrize("page", [page for page in PAGES if _page_commands(page)], ids=lambda page: page.stem)
def test_a_page(page: Path, tmp_path: Path):
    with stage(tmp_path) as room:
        for part in parts(page.read_text(encoding="utf-8")):
            _take(room, part, _named(page))


def _take(room: Stage, part: Block | Told, page: str) -> None:
    if isinstance(part, Told):
        room.obey(part)
    elif part.language == "toml":
        keep_file(part)
    elif part.language in TYPED:
        for shown in commands(part):
            if not why_not(part, shown):
                _hold(room, shown, f"{page}, line {shown.number}: {shown.line}")


def why_not(block: Block, shown: Shown) -> str:
    """The page's own reason, or the program that is none of ours; "" for what is run."""
    program = shown.line.split()[0]
    return block.reason or (program if program in OTHERS else "")


def keep_file(block: Block) -> None:
    """A block whose first line is `# name.toml` is that file."""
    first = block.text.partition("\n")[0].removeprefix("# ")
    if first.endswith(".toml") and " " not in first:
        Path(first).write_text(f"{block.text}\n", encoding="utf-8")


def _hold(room: Stage, shown: Shown, what: str) -> None:
    said = room.run(shown.line)
    # A page may show a refusal, but only in so many words: an elision hides none.
    may_fail = any(line.startswith("footlight: ") for line in (shown.output or "").splitlines())
    assert said.code == 0 or may_fail, f"{what}\n{said.text}"
    if shown.output is not None:
        assert agrees(shown.output, said.text), f"{what}\n--- the page\n{shown.output}--- said\n{said.text}"


def test_what_is_not_run_is_counted():
    found: Counter[tuple[str, str]] = Counter()
    for page in PAGES:
        for block in _blocks(page):
            for shown in commands(block) if block.language in TYPED else ():
                if why := why_not(block, shown):
                    found[_named(page), why] += 1
    assert dict(found) == NOT_RUN


def test_no_command_hides_in_another_block():
    hidden = [
        f"{_named(page)}, line {block.line}"
        for page in PAGES
        for block in _blocks(page)
        if block.language not in TYPED and _named(page) != MADE
        for line in block.text.splitlines()
        if line.removeprefix("$ ").startswith("footlight ")
    ]
    assert hidden == []


def test_there_is_much_to_run():
    assert sum(len(_page_commands(page)) for page in PAGES) > 60
