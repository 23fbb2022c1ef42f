"""A notebook with two prints on it, made on the bench once for all tests of this folder."""

import shutil
from pathlib import Path

import pytest
from tests.host.repeating import prints

from footlight.bench.feet import Slip


@pytest.fixture(scope="session")
def evening(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Sheet 1 as planned, sheet 2 with a late developer and a light that was stopped once."""
    folder = tmp_path_factory.mktemp("evening")
    (path,) = prints.files(folder, "reversal-print")
    slips = {1: Slip(late_ms=12_000), 7: Slip(stop_ms=3500)}
    return prints.made(folder, [(path, {}), (path, slips)])


@pytest.fixture
def folder(evening: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder to work in; the notebook of the evening is the one in use."""
    book = tmp_path / "book" / prints.BOOK
    book.parent.mkdir()
    shutil.copy(evening, book)
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", str(book))
    monkeypatch.setenv("TZ", "UTC")
    work = tmp_path / "work"
    work.mkdir()
    monkeypatch.chdir(work)
    return work


@pytest.fixture(scope="session")
def evening_of_three(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Sheets 1, 2 as planned; 3 with a third of a stop more, from higher up; 4 the same light from there."""
    folder = tmp_path_factory.mktemp("three")
    (path,) = prints.files(folder, "reversal-print")
    text = path.read_text()
    more, higher = folder / "more.toml", folder / "higher.toml"
    higher.write_text(text.replace('dose = "reference"', 'dose = "reference"\nheight = "900 mm"'))
    changed = higher.read_text().replace('dose = "reference"', 'dose = "+1/3 stop"')
    more.write_text(changed.replace('time = "1:30"', 'time = "1:40"'))
    return prints.made(folder, [(path, {}), (path, {}), (more, {}), (higher, {})])
