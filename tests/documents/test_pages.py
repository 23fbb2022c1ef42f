"""Every command that a page shows is run, in the page's order, and answers what the page says.

What is not run is marked in the page with the reason, and listed here: a command may not slip out of the
test by a mark that nobody counted.
"""

from collections import Counter
from pathlib import Path

import pytest
from tests.documents import pedal
from tests.documents.answers import agrees
from tests.documents.fences import REPOSITORY, TYPED, Block, Prose, Shown, Told, commands, parts
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


def _take(room: Stage, part: Block | Told | Prose, page: str) -> None:
    if not isinstance(part, Block):
        act_on(room, part)
    elif part.language == "toml":
        keep_file(part)
    elif part.language in TYPED:
        for shown in commands(part):
            if not why_not(part, shown):
                _hold(room, shown, f"{page}, line {shown.number}: {shown.line}")


def act_on(room: Stage, part: Told | Prose) -> None:
    """What the page tells the runner, and what it tells its reader to do with the pedal."""
    if isinstance(part, Told):
        room.obey(part)
    elif pedal.speaks(part.text):
        pedal.carry_out(room.controller.bench, part.text)


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


# What of a first print speaks of the pedal and is not carried out from its sentence: the scripted feet do it.
_BY_FEET = ("the space bar is your foot", "Box it, tap, take", "**One short press when the sheet lies")


def test_a_first_print_is_done_as_its_sentences_say():
    page = (REPOSITORY / "docs" / "first-print.md").read_text(encoding="utf-8")
    unread = [line for part in parts(page) if isinstance(part, Prose) for line in pedal.unread(part.text)]
    assert len(unread) == len(_BY_FEET)
    assert all(words in line for words, line in zip(_BY_FEET, unread, strict=True))


def test_a_sentence_that_leads_astray_is_noticed(tmp_path: Path):
    """One tap after a batch leads to FLASH: a page that promises PRINT would light a phantom sheet."""
    with stage(tmp_path) as room:
        for name in ("pre-flash", "reversal-print"):
            assert room.run(f"footlight new {name}").code == 0
            assert room.run(f"footlight send {name}.toml").code == 0
        pedal.carry_out(room.controller.bench, "The display shows FLASH: a long press arms it.")
        room.obey(Told("feet", "carry out pre-flash.toml, armed", 1))
        with pytest.raises(ValueError, match="shows 'PRINT'; it is FLASH"):
            pedal.carry_out(
                room.controller.bench, "A short press turns the titles to PRINT, a long one arms it."
            )


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
