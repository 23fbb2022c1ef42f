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
