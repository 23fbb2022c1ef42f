"""Which light setups a strip's dose holds for: those of the very same light, and no other."""

from pathlib import Path

import pytest

from footlight import examples
from footlight.actions.accept_dose import plan_references, twins
from footlight.errors import InputError

# `second` of the example with one thing changed; what a strip found for `second` says nothing of its light.
OTHER = {
    "another filter": ('dead_time = "60 ms"', 'dead_time = "60 ms"\nfilter = "red"'),
    "a grey filter": ('dead_time = "60 ms"', 'dead_time = "60 ms"\nneutral_density = "0.3 D"'),
    "another lens": ('lens = "80 mm"', 'lens = "50 mm"'),
    "another focal length": ('focal_length = "80 mm"', 'focal_length = "81 mm"'),
    "another reference": ("6.0 s at 620 mm f/11", "7.0 s at 620 mm f/11"),
    "another lamp": ('lamp = "enlarger"', 'lamp = "spare"'),
    "no reference": ('reference = "6.0 s at 620 mm f/11"', ""),
}


def setups(folder: Path, *more: str) -> Path:
    text = examples.text(examples.SETUPS)
    spare = text[text.index("[lamp.enlarger]") : text.index("[lamp.flash]")].replace("enlarger", "spare")
    path = folder / "light-setups.toml"
    path.write_text("\n".join([text, spare, *more]), encoding="utf-8")
    return path


def second(name: str, before: str = "", after: str = "") -> str:
    """The example's `second` under another name, with one thing changed."""
    text = examples.text(examples.SETUPS)
    block = text[text.index("[setup.second]") : text.index("# The strip stands")]
    assert before in block
    return block.replace("[setup.second]", f"[setup.{name}]").replace(before, after, 1 if before else 0)


def test_height_and_stop_make_no_other_light(tmp_path: Path):
    path = setups(tmp_path, second("higher", '"800 mm"', '"900 mm"'), second("wider", '"f/11"\n', '"f/8"\n'))
    assert set(twins(path, "second")) == {"second", "second-strip", "higher", "wider"}


@pytest.mark.parametrize("other", OTHER)
def test_no_reference_reaches_a_setup_of_another_light(tmp_path: Path, other: str):
    path = setups(tmp_path, second("other", *OTHER[other]))
    assert "other" not in twins(path, "second")
    assert twins(path, "other") == ("other",)


def test_two_without_a_reference_are_no_twins(tmp_path: Path):
    taken_out = OTHER["no reference"]
    path = setups(tmp_path, second("a", *taken_out), second("b", *taken_out))
    assert twins(path, "a") == ("a",)


def test_only_what_says_something_else_is_changed(tmp_path: Path):
    path = setups(tmp_path, second("later", "6.0 s", "7.0 s"))
    planned = plan_references(path, ("second", "later"), "7.0 s at 620 mm f/11", 3)
    assert [(change.setup, change.before) for change in planned.changes] == [
        ("second", "6.0 s at 620 mm f/11")
    ]
    assert (planned.unchanged, planned.changes[0].reading_id) == (("later",), 3)
    with pytest.raises(InputError, match="no light setup 'third'"):
        plan_references(path, ("third",), "7.0 s at 620 mm f/11", 3)
