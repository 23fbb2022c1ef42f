"""A notebook of one's own, open or by its path."""

import sqlite3
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.host.baths.darkroom import Darkroom

from footlight.notebook.book import notebook


@pytest.fixture
def path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    found = tmp_path / "notebook.sqlite"
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", str(found))
    monkeypatch.setenv("FOOTLIGHT_SETTINGS", str(tmp_path / "settings.toml"))
    return found


@pytest.fixture
def book(path: Path) -> Iterator[sqlite3.Connection]:
    with notebook(path, writing=True) as connection:
        yield connection


@pytest.fixture
def darkroom(book: sqlite3.Connection) -> Darkroom:
    return Darkroom(book)
