"""Every Python block of the API's page runs, in order, and prints what stands below; the API is as listed."""

import contextlib
import inspect
import io
import os
import re
import runpy
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.documents.fences import REPOSITORY, Block, parts

import footlight
from footlight import api

PAGE = REPOSITORY / "docs" / "api.md"


@pytest.fixture(autouse=True)
def a_room_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("TZ", "UTC")
    time.tzset()
    yield
    monkeypatch.undo()
    time.tzset()


def printed(code: str, names: dict[str, object]) -> str:
    """What a block prints. Its names stay for the next one."""
    told = io.StringIO()
    with contextlib.redirect_stdout(told):
        exec(compile(code, "page", "exec"), names)
    return told.getvalue().rstrip()


def test_python_blocks_print_what_the_page_says():
    blocks = [part for part in parts(PAGE.read_text(encoding="utf-8")) if isinstance(part, Block)]
    names: dict[str, object] = {}
    count = 0
    for block, below in zip(blocks, [*blocks[1:], None], strict=True):
        if block.language == "python" and not block.reason:
            said = printed(block.text, names)
            expected = below.text if below and below.language == "text" else ""
            assert said == expected, f"line {block.line}"
            count += 1
    assert count >= 7


def test_the_page_names_everything_and_nothing_else():
    text = PAGE.read_text(encoding="utf-8")
    functions = [name for name in footlight.__all__ if inspect.isfunction(getattr(api, name))]
    assert [name for name in functions if not re.search(rf"\b{name}\b", text)] == []
    named = set(re.findall(r"footlight\.([a-zA-Z_]+)\b", text)) - {"quantities", "api", "__all__"}
    assert named <= set(footlight.__all__) | {"toml"}


def test_the_two_lists_are_one():
    assert footlight.__all__ == api.__all__ == sorted(set(api.__all__))
    assert all(getattr(footlight, name) is getattr(api, name) for name in api.__all__)
    with pytest.raises(AttributeError, match="footlight.__all__"):
        footlight.no_such_name  # noqa: B018


def test_every_public_name_says_what_it_is():
    silent = [name for name in api.__all__ if not inspect.getdoc(getattr(api, name))]
    assert silent == []


def test_nothing_is_loaded_before_it_is_asked_for():
    code = "import footlight, sys; print(sorted(m for m in sys.modules if m.startswith('footlight')))"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    assert told.strip() == "['footlight']"


def test_a_whole_print_by_script(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture
):
    script = REPOSITORY / "docs" / "one_print.py"
    monkeypatch.setattr(sys, "argv", [os.fspath(script), os.fspath(tmp_path / "print")])
    runpy.run_path(os.fspath(script), run_name="__main__")
    told = capsys.readouterr().out
    assert "6.0 s at 620 mm f/11 → 10.0 s at 800 mm f/11" in told
    assert "Sheet 1 of controller" in told and "+11.2 s" in told


def test_a_block_that_prints_otherwise_is_noticed():
    assert printed("print(1 + 1)", {}) == "2"
    with pytest.raises(ZeroDivisionError):
        printed("1 / 0", {})
