"""Which files a board gets, how large they are, and what their compiler makes of a text."""

import ast
from pathlib import Path

import pytest

from footlight.install import image

INSTALL = Path(image.__file__).parent
needs_compiler = pytest.mark.skipif(not image.compiled("none", ""), reason="no cross-compiler here")


@needs_compiler
def test_all_compiled_files_stay_within_48_kib():
    files = image.image(6)
    assert len(files) == len(image.sources())
    assert sum(len(data) for path, data in files.items() if path.endswith(".mpy")) <= 48 * 1024


@needs_compiler
def test_all_files_are_compiled_or_none():
    # A source would look for names that are folded away in the compiled files.
    assert {Path(path).suffix for path in image.image(5)} == {".py"}
    assert {path for path in image.image(6) if path.endswith(".py")} == {image.BOOT, image.MAIN}


def test_sources_are_installed_as_they_are():
    assert image.image(5) == {path: file.read_bytes() for path, file in image.sources().items()}


@needs_compiler
def test_the_same_bytes_every_time():
    """An update copies what has another hash."""
    assert image.image(6) == image.image(6)


def test_whatever_the_tool_runs_at_the_prompt_is_reckoned_with():
    """A new script that takes names from the board's files belongs into `image.at_prompt`."""
    found = set()
    for path in INSTALL.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            text = node.value if isinstance(node, ast.Constant) else None
            if isinstance(text, str) and ("from controller" in text or "from footlight_core" in text):
                found.add(text)
    assert found and found == set(image.at_prompt().values())


@needs_compiler
def test_the_compiler_sees_neither_layout_nor_brackets():
    """Why it may be the text that is changed."""
    plain = "x = 2\ndef f():\n    return x - -1, 'a'\n"
    other = '"""Doc."""\n\npass  # why\nx = (2)\npass; pass\n\ndef f():\n    return x - (-1), "a"\n'
    assert image.compiled("a.py", plain) == image.compiled("a.py", other)


@needs_compiler
@pytest.mark.parametrize("length", [3, 10, 11, 40, 300])
def test_a_compiled_file_holds_a_text_once_however_often_it_is_used(length: int):
    """What the choice of the texts that are folded rests on."""
    once, twice, thrice = (
        len(image.compiled("a.py", f"f('{'t' * length}')\n" * times)) for times in (1, 2, 3)
    )
    assert twice - once <= 8 and thrice - twice <= 8
