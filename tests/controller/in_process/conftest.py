"""What the parts of the controller stand on."""

import os
from pathlib import Path

import pytest
from tests.controller.in_process.box import Box


@pytest.fixture
def box(monkeypatch: pytest.MonkeyPatch) -> Box:
    """A chip of the test's own."""
    return Box(monkeypatch)


@pytest.fixture
def flash(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty file system, which is the present folder as on the controller -> its data folder."""
    monkeypatch.chdir(tmp_path)
    # As much as littlefs offers on the board: 352 blocks, whatever the disk of this computer has.
    monkeypatch.setattr(os, "statvfs", lambda path: (4096, 4096, 352, 300), raising=False)
    return tmp_path / "data"
