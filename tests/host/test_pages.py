"""Pages that are made from the code are what the code would make now."""

import importlib.util
from pathlib import Path

DOCS = Path(__file__).parents[2] / "docs"


def load(name: str):
    """A generator that lives beside its page."""
    spec = importlib.util.spec_from_file_location(name, DOCS / f"{name}.py")
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_states():
    maker = load("make_states")
    assert maker.PAGE.read_text(encoding="utf-8") == maker.page()


def test_screens():
    maker = load("make_screens")
    shown = maker.walk()
    assert maker.PAGE.read_text(encoding="utf-8") == maker.page(shown)
    assert maker.PICTURE.read_text(encoding="utf-8") == maker.svg(shown)
