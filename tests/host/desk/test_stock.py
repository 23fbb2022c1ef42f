"""What is entered about the stock in the page is what the commands would have entered, as one act each."""

import re
from pathlib import Path

import pytest
from starlette.testclient import TestClient
from tests.host.desk.test_prints import command

from footlight.desk.entering import ENTRIES

# Of each entry: what is typed, and what a command says afterwards.
TYPED: dict[str, tuple[dict[str, str], tuple[str, ...], str]] = {
    "bath-mixed": ({"names": "developer, bleach", "volume": "1 L"}, ("bath", "list"), "bleach"),
    "bath-found": (
        {"name": "bleach", "clearing": "95 s", "note": "tired"},
        ("bath", "show", "bleach"),
        "clearing 95 s",
    ),
    "bath-moved": ({"move": "emptied", "names": "bleach"}, ("history",), "bleach: emptied"),
    "paper-added": (
        {"name": "A", "paper": "pearl", "size": "8x10", "sheets": "50", "index": "4"},
        ("paper", "list"),
        "pearl",
    ),
    "paper-found": ({"name": "A", "second": "+1/4 stop"}, ("paper", "show", "A"), "second exposure"),
    "paper-spoiled": (
        {"name": "A", "count": "2", "why": "light in the box"},
        ("paper", "show", "A"),
        "2 spoiled",
    ),
    "paper-used": ({"name": "A"}, ("history",), "paper A: use"),
    "lens-added": (
        {"name": "portrait", "focal": "210 mm", "widest": "f/5.6", "openings": "f/8 = 25.9 mm"},
        ("lens", "list"),
        "210 mm",
    ),
}


def test_each_is_entered_told_and_taken_back(browser: TestClient, book: Path):
    assert set(TYPED) == set(ENTRIES)
    last = ""
    for name, (typed, words, said) in TYPED.items():
        answer = browser.post(f"/stock/enter/{name}", data=typed)
        assert answer.status_code == 303, (name, answer.text)
        assert said in command(book, *words), name
        last = browser.get(answer.headers["location"]).text
        assert "Written: " in last
    act = re.findall(r'name="act" value="(\d+)"', last)[0]
    browser.post("/history/turn", data={"act": act, "turn": "undo"})
    assert "210 mm" not in command(book, "lens", "list")


@pytest.mark.parametrize(
    ("name", "typed", "at"),
    [
        ("bath-mixed", {"names": "developer", "volume": "a lot"}, "volume"),
        ("bath-mixed", {"names": ""}, "names"),
        ("bath-found", {"name": "developer", "temperature": "warm"}, "temperature"),
        ("paper-added", {"name": "A", "paper": "x", "size": "8x10", "sheets": "-1"}, "sheets"),
        ("lens-added", {"name": "L", "focal": "210"}, "focal"),
        ("bath-moved", {"move": "drunk"}, "move"),
    ],
)
def test_a_mistake_stands_beside_its_field_and_enters_nothing(
    browser: TestClient, book: Path, name: str, typed: dict[str, str], at: str
):
    before = command(book, "history")
    answer = browser.post(f"/stock/enter/{name}", data=typed)
    assert answer.status_code == 400
    assert re.search(rf'id="{at}-wrong"[^>]*>\S', answer.text), answer.text
    assert command(book, "history") == before


def test_a_bath_may_be_called_what_it_likes(browser: TestClient, book: Path):
    answer = browser.post(
        "/stock/enter/bath-mixed",
        data={"names": "a/b?", "kind": "fixer", "volume": "1 L", "made_from": "<i>"},
    )
    assert answer.status_code == 303, answer.text
    page = browser.get("/stock").text
    address = re.findall(r'href="(/stock/bath/[^"]+)"', page)[0]
    assert "<i>" not in page and browser.get(address).status_code == 200
