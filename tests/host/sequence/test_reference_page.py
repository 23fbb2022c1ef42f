"""The reference of the file format says what the reader does; its example and its arithmetic are run."""

import importlib.util
import re
from pathlib import Path

import pytest

from footlight import sequence

DOCS = Path(__file__).parents[3] / "docs"


def maker():
    spec = importlib.util.spec_from_file_location("make_sequences", DOCS / "make_sequences.py")
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def text() -> str:
    return (DOCS / "sequences.md").read_text(encoding="utf-8")


def test_tables_are_what_the_reader_declares():
    assert maker().page(text()) == text()


def test_every_declaration_is_on_the_page():
    made = maker()
    on_page = re.findall(r"<!-- keys: ([a-z -]+) -->", text())
    assert sorted(on_page) == sorted([*made.KEYS, "limits"])
    for keys in made.KEYS.values():
        for key in keys:
            assert f"| `{key.name}` |" in text()
            assert key.is_required or key.unless, key.name


def test_every_example_can_be_read():
    """What a table offers as an example, the reader takes."""
    import tomllib

    checked = 0
    for keys in maker().KEYS.values():
        for key in keys:
            if not key.reader.example.startswith("["):
                value = tomllib.loads(f"x = {key.reader.example}")["x"]
                key.reader.read(value, key.name)
                checked += 1
    assert checked > 50


def test_the_sequence_on_the_page(tmp_path: Path):
    """12.6 s by hand: 6 · 2^(1/3) · (800/620)² = 12.587."""
    written, setups = re.findall(r"```toml\n(.*?)```", text(), re.DOTALL)
    (tmp_path / "short.toml").write_text(written, encoding="utf-8")
    (tmp_path / "light-setups.toml").write_text(setups, encoding="utf-8")
    made = sequence.compile(sequence.load(tmp_path / "short.toml"))
    assert made.arithmetic[0].time_ms == pytest.approx(12_587, abs=1)
