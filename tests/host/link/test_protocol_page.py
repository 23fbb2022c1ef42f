"""docs/protocol.md is what its generator would write now, and says what the core holds."""

import importlib.util
from pathlib import Path

from footlight_core import records, wire

MAKER = Path(__file__).parents[3] / "docs" / "make_protocol.py"


def load():
    spec = importlib.util.spec_from_file_location("make_protocol", MAKER)
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_page_is_current():
    maker = load()
    assert maker.PAGE.read_text(encoding="utf-8") == maker.page(), "run: python docs/make_protocol.py"


def test_the_page_names_everything_that_the_core_declares():
    text = load().page()
    for name, *_ in (*wire.MESSAGES, *wire.REFUSALS, *records.KINDS):
        assert f"| `{name}` |" in text


def test_the_example_frame_is_whole():
    text = load().page()
    line = text.split("```\n")[1].strip().encode()
    message, refused = wire.decode(line)
    assert refused is None and message is not None and message["method"] == "slots"
