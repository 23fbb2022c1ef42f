"""Pages that are made from the code are what the code would make now."""

import importlib.util
import shutil
import subprocess
import tomllib
from pathlib import Path

import pytest
from tests.documents.mentions import every_command

from footlight.camera import settings
from footlight.chemistry import formula
from footlight.cli import manual_text
from footlight.quantities.table import in_file

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


def test_commands():
    maker = load("make_commands")
    assert maker.PAGE.read_text(encoding="utf-8") == maker.page(), "run: python docs/make_all.py"


def test_files():
    maker = load("make_files")
    assert maker.PAGE.read_text(encoding="utf-8") == maker.page(), "run: python docs/make_all.py"


def test_the_examples_of_keys_are_taken_by_the_readers():
    """Those of files without a table of keys; the others are held where they are declared."""
    maker = load("make_files")

    def written(rows, *left_out: str) -> str:
        return "".join(f"{key} = {row[3]}\n" for key, row in rows.items() if key not in left_out)

    ingredients = ("mass", "volume", "dilution")
    text = written(maker.FORMULA, "ingredient")
    for way in ingredients:
        text += "[[ingredient]]\n" + written(maker.INGREDIENT, "strength", *(set(ingredients) - {way}))
    text += '[[ingredient]]\nwhat = "hydrogen peroxide"\nstrength = ' + maker.INGREDIENT["strength"][3]
    assert len(formula.formula_of(tomllib.loads(text), in_file("page")).ingredients) == 4
    lights = "".join(f"[{kind}.a]\n{written(maker.CONDITION)}" for kind in ("light", "filter"))
    found = settings.settings_of(tomllib.loads(f"[lens.a]\n{written(maker.LENS)}{lights}"), in_file("page"))
    assert found.lens("a").focal_mm == 210 and found.light("a").off_stops == pytest.approx(1 / 6)


def test_manual():
    maker = load("make_manual")
    assert maker.PAGE.read_text(encoding="ascii") == maker.page(), "run: python docs/make_all.py"


@pytest.mark.parametrize(
    "lint",
    [["mandoc", "-Tlint", "-Wwarning"], ["groff", "-man", "-ww", "-z", "-Tutf8"]],
    ids=lambda words: words[0],
)
def test_the_manual_is_a_manual(lint: list[str]):
    if not shutil.which(lint[0]):
        pytest.skip(f"{lint[0]} is not installed here")
    said = subprocess.run([*lint, str(load("make_manual").PAGE)], capture_output=True, text=True, check=False)
    # The page has no date, so that it is the same whenever it is made.
    lines = [line for line in (said.stdout + said.stderr).splitlines() if "missing date" not in line]
    assert lines == []


def test_the_manual_has_every_command():
    text = load("make_manual").PAGE.read_text(encoding="ascii").replace("\\-", "-")
    for path, _ in every_command():
        assert not path or f'.SS "footlight {" ".join(path)}"' in text
    assert manual_text.text().count("Example:") > 50
