"""No byte of anybody's text moves the cursor: titles, remarks, names of files, records of a journal."""

import json
import time
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some
from tests.hostile.typing_in import FORBIDDEN, typed

from footlight.link.journal import Entry
from footlight.notebook.book import notebook
from footlight.notebook.journal import bring
from footlight.views.plain_text import plain
from footlight_core import records

nasty = some.text(
    some.sampled_from([*FORBIDDEN, "a", "é", " ", "[", "2", "J", "m", "\n", "\t", "\ud800"]), max_size=40
)


@given(some.text(max_size=60) | nasty)
def test_plain_is_plain_and_keeps_what_is_harmless(text: str):
    made = plain(text)
    without_own = made.replace("\x1b[31m", "").replace("\x1b[0m", "")
    assert not any(char in without_own for char in FORBIDDEN)
    if not any(char in text for char in FORBIDDEN):
        assert made == text


def hostile_book(path: Path, text: str) -> None:
    """A notebook whose records, titles and remarks hold anything; the check sums are right."""
    sheet = {"run": 1, "step": 1, "sheet": 1}
    told = [
        {"k": "arm", "run": 1, "slot": 1, "sha": "ab" * 8, "title": text, "sheet": 1, "sheets": 1},
        {"k": "begin", **sheet},
        {"k": "step", **sheet, "start": 0, "real_ms": 5, "how": text},
        {"k": "intent", **sheet, "light_ms": 900, "gate_ms": 950, "sha": text[:16]},
        {"k": "gave", **sheet, "gate_ms": 5, "light_ms": 5, "left_ms": 895, "how": text},
        {"k": "fault", "run": 1, "step": 1, "code": 77},
        {"k": "end", "run": 1, "sheet": 1, "how": text},
    ]
    lines = [record | {"n": number, "t": number} for number, record in enumerate(told, 1)]
    entries = [Entry(one["n"], records.seal(one).decode("ascii", "replace"), one, True) for one in lines]
    with notebook(path, writing=True) as connection:
        epoch = bring.epoch_id(connection, f"c{text}", "e", int(time.time()))
        bring.bring(connection, epoch, entries, int(time.time()))


COMMANDS = (["sheets"], ["sheet", "1"], ["search", "a"], ["sheet", "1", "--json"], ["sheets", "--json"])


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(text=some.text(some.sampled_from([*FORBIDDEN, "a", "\u00e9"]), min_size=1, max_size=8))
def test_a_hostile_journal_and_remark(tmp_path: Path, text: str):
    book = tmp_path / f"{abs(hash(text))}.sqlite"
    book.unlink(missing_ok=True)
    hostile_book(book, text)
    note = "".join(char for char in text if char != "\0") + " a"
    written = typed("write", "1", note, "--notebook", book)
    assert written.is_clean() and written.code in (0, 2), written
    for words in COMMANDS:
        done = typed(*words, "--notebook", book)
        assert done.is_clean() and done.code == 0, (words, done)
        if "--json" in words:
            json.loads(done.out)


NAMES = (
    "\x1b[2J.toml",
    "a\u202egpj.toml",
    "\x9b5n.toml",
    "new\nline.toml",
    "../" * 40 + "etc/passwd",
    "x" * 5000,
)


def test_names_of_files_in_every_error(tmp_path: Path):
    for name in NAMES:
        for words in (["plan"], ["restore"], ["read", "sample"], ["light", "strip", "second"]):
            done = typed(*words, tmp_path / name)
            assert done.is_clean() and done.code != 0 and "Traceback" not in done.err, (words, done)
        done = typed("sheets", "--notebook", tmp_path / name)
        assert done.is_clean() and done.code != 0 and "Traceback" not in done.err, done
    for option in ("--\x1b[2J", "\x1b]0;x\x07", "\u202e"):
        done = typed(option)
        assert done.is_clean() and done.code != 0, done
