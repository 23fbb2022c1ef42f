"""A desk with one evening in its notebook, asked as a browser that was let in asks."""

from pathlib import Path

import pytest
from starlette.testclient import TestClient
from tests.host.notebook.journals import EVENING, PRINT, write

from footlight.desk.app import make_app
from footlight.desk.desk import Desk
from footlight.desk.guard import Keys
from footlight.notebook.book import notebook
from footlight.notebook.journal import bring

HOME = "http://127.0.0.1:8724"
NOBODY = "socket://127.0.0.1:9"  # a port of this computer where no controller is


@pytest.fixture
def book(tmp_path: Path) -> Path:
    path = tmp_path / "notebook.sqlite"
    with notebook(path, writing=True) as connection:
        bring.bring(connection, bring.epoch_id(connection, "box-1", "e1", EVENING), write(*PRINT), EVENING)
    return path


@pytest.fixture
def keys() -> Keys:
    return Keys(frozenset({"127.0.0.1:8724", "[::1]:8724", "localhost:8724"}))


@pytest.fixture
def stranger(book: Path, keys: Keys) -> TestClient:
    """Asks without having been let in."""
    return TestClient(make_app(Desk(book, book.parent, NOBODY), keys), HOME, follow_redirects=False)


@pytest.fixture
def browser(stranger: TestClient, keys: Keys) -> TestClient:
    stranger.get(f"/?token={keys.token}")
    stranger.headers["origin"] = HOME
    return stranger
