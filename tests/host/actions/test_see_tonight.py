"""Tonight: what stands, what waits, what comes next."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from footlight.actions.list_slots import Slots
from footlight.actions.see_tonight import see_tonight
from footlight.cli.main import group
from footlight.errors import act
from footlight.link.errors import NoControllerError, PortError
from footlight.link.replies import Slot
from footlight.notebook.book import notebook
from footlight.notebook.stock import baths
from footlight.views import tonight as view

NOW_S = 1_772_388_000


def none_there(port: str | None) -> Slots:
    raise NoControllerError("none")


def away(port: str | None) -> Slots:
    raise PortError("/dev/x: cannot be opened")


def holding(*titles: str):
    slots = tuple(Slot(number, title, "") for number, title in enumerate(titles, start=1))
    return lambda port: Slots(8, slots)


@pytest.fixture
def book(tmp_path: Path) -> Path:
    path = tmp_path / "notebook.sqlite"
    with notebook(path, writing=True) as connection:
        baths.mix(connection, [baths.Mixed("bleach", "", "", "bleach", 1000, NOW_S - 3600)], NOW_S)
    return path


def test_with_nothing_yet(tmp_path: Path):
    tonight = see_tonight(tmp_path / "none.sqlite", NOW_S, look=none_there)
    assert view.lines(tonight)[:3] == [
        "controller: none is plugged in",
        "baths: none written down",
        "sheets: none is flashed and waits",
    ]
    assert act("mix bath") in tonight.next_act


def test_baths_and_what_the_controller_holds(book: Path):
    lines = view.lines(see_tonight(book, NOW_S, look=holding("PRINT", "FLASH")))
    assert lines[0] == "controller: 1 PRINT, 2 FLASH"
    assert any(line.startswith("bleach") for line in lines)
    assert lines[-1].startswith("next: pre-flash a batch")


def test_an_empty_controller_comes_first(book: Path):
    assert "the controller is empty" in see_tonight(book, NOW_S, look=holding()).next_act


def test_a_bath_that_is_spent_comes_before_the_print(book: Path):
    spent = see_tonight(book, NOW_S + 40 * 3600, look=holding("PRINT"))
    assert spent.next_act.startswith("mix fresh: bleach")


def test_a_controller_that_is_away_is_told_and_no_error(book: Path):
    tonight = see_tonight(book, NOW_S, look=away)
    assert "cannot be opened" in view.lines(tonight)[0] and act("bench") in tonight.next_act


def test_the_tool_alone_shows_it(book: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", str(book))
    monkeypatch.setattr("footlight.link.transport.list_all", list)
    monkeypatch.setattr("time.time", lambda: float(NOW_S))
    alone, named = CliRunner().invoke(group, []), CliRunner().invoke(group, ["tonight"])
    assert alone.exit_code == 0 and alone.output == named.output
    assert "'footlight bench'" in alone.output
    told = json.loads(CliRunner().invoke(group, ["tonight", "--json"]).output)
    assert told["baths"] == ["bleach"] and told["slots"] is None and "'footlight bench'" in told["next"]
