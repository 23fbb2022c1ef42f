"""An open notebook in a folder of its own."""

import sqlite3
from collections.abc import Iterator
from pathlib import Path

import pytest

from footlight.notebook.book import notebook


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "notebook.sqlite"


@pytest.fixture
def book(path: Path) -> Iterator[sqlite3.Connection]:
    with notebook(path, writing=True) as connection:
        yield connection
