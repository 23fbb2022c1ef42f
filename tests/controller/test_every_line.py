"""An exception at lines of the safety path, here and there; the campaign `lines` takes them all."""

from pathlib import Path

import pytest
from tests.controller.sabotage import PATHS, lines, trial

STRIDE = 149  # a prime, so that other lines are met when the code changes
FROM_STOP_TO_RECORD = 40  # lines, and more than there are


@pytest.fixture(autouse=True)
def referee() -> None:
    """None but the trial's own: a record may be lost with the very line that should have written it."""


@pytest.mark.parametrize("path", PATHS)
def test_an_exception_at_any_line(tmp_path: Path, path: str):
    there = lines(path, tmp_path / "all")
    assert len(there) > 300
    for line in there[::STRIDE]:
        place, wrong = trial(path, line, tmp_path / str(line))
        assert place, f"line {line} is not the same a second time"
        assert wrong == [], f"line {line}, {place}"


def test_an_exception_between_a_foot_and_what_is_written_of_it(tmp_path: Path):
    for line in lines("stopped", tmp_path / "all")[:FROM_STOP_TO_RECORD]:
        place, wrong = trial("stopped", line, tmp_path / str(line))
        assert wrong == [], f"line {line}, {place}"
