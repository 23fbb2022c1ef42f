"""One browser for all of these tests, and one desk with an evening in it: prints, baths, a box of paper, a
lens, sequences."""

import shutil
import socket
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
import uvicorn
from click.testing import CliRunner
from playwright.sync_api import Browser, Page, sync_playwright

from footlight import examples
from footlight.actions.demonstrate import demonstrate
from footlight.actions.invent_scan import invent_strip
from footlight.cli.main import group
from footlight.desk import server
from footlight.desk.app import make_app
from footlight.desk.desk import Desk
from footlight.desk.guard import Keys

CHROMIUM = next((found for name in ("chromium", "chromium-browser") if (found := shutil.which(name))), None)


@dataclass
class Open:
    """A desk that is served. home: without the token; way_in: with it."""

    home: str
    way_in: str
    book: Path
    folder: Path


def command(book: Path, *words: str) -> str:
    """What a command does to the same notebook."""
    done = CliRunner().invoke(group, [*words, "--notebook", str(book)])
    assert done.exit_code == 0, done.output
    return done.output


@pytest.fixture(scope="session")
def evening(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make_evening(tmp_path_factory.mktemp("evening"))


def make_evening(folder: Path) -> Path:
    """A folder with a notebook, as an evening leaves it; everything in it is invented."""
    demonstrate(folder / "demo", lambda chapter: None)
    book = folder / "demo" / "notebook.sqlite"
    command(book, "bath", "mixed", "developer", "--volume", "1 L")
    command(book, "bath", "mixed", "bleach", "--volume", "700 mL")
    command(book, "paper", "add", "A", "pearl surface", "--size", "8x10", "--sheets", "50")
    command(book, "lens", "add", "portrait", "--focal", "210 mm", "--widest", "f/5.6")
    command(book, "write", "1", "--verdict", "usable", "--defect", "mottle", "upper left <b>corner</b>")
    invent_strip(folder / "strip.tif", "strip", (0.0, 1, 2, 4, 8, 16, 32, 64, 128), 8.0, ppi=200)
    for name in (*(f"{name}.toml" for name in examples.NAMES), examples.SETUPS):
        (folder / name).write_text(examples.text(name), encoding="utf-8")
    return folder


@pytest.fixture
def desk(evening: Path, tmp_path: Path) -> Iterator[Open]:
    """A desk of its own for each test, on a copy of the evening."""
    folder = tmp_path / "desk"
    shutil.copytree(evening, folder)
    with served(Desk(folder / "demo" / "notebook.sqlite", folder, "socket://127.0.0.1:9")) as open_desk:
        yield open_desk


class served:  # noqa: N801 - used as a function
    """The desk on a port of this computer while the block runs."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk

    def __enter__(self) -> Open:
        bound: list[socket.socket] = server.sockets(0)
        keys = Keys(server.hosts(server.port_of(bound)))
        config = uvicorn.Config(
            make_app(self._desk, keys), log_level="critical", lifespan="off", timeout_graceful_shutdown=0
        )
        self._server = uvicorn.Server(config)
        self._thread = threading.Thread(target=self._server.run, args=(bound,), daemon=True)
        self._thread.start()
        until_s = time.monotonic() + 5
        while not self._server.started and time.monotonic() < until_s:
            time.sleep(0.01)
        home = f"http://127.0.0.1:{server.port_of(bound)}"
        return Open(home, f"{home}/?token={keys.token}", self._desk.book, self._desk.folder)

    def __exit__(self, *error: object) -> None:
        self._server.should_exit = True
        self._thread.join(5)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    if CHROMIUM is None:
        pytest.skip("NOT LOOKED AT: no chromium on this machine opens the desk")
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield started
        started.close()


@pytest.fixture
def page(browser: Browser, desk: Open) -> Iterator[Page]:
    """A page that was let in; whatever a script of it complains of fails the test."""
    context = browser.new_context(viewport={"width": 1200, "height": 900})
    context.set_default_timeout(5_000)
    opened = context.new_page()
    wrong: list[str] = []
    opened.on("pageerror", lambda error: wrong.append(str(error)))
    opened.on("console", lambda told: wrong.append(told.text) if "Content Security" in told.text else None)
    opened.goto(desk.way_in)
    yield opened
    context.close()
    assert wrong == []
