"""A first set-up from an empty folder to its last stage, in the page alone; light setups as a form."""

import re
from html import unescape
from pathlib import Path

from starlette.testclient import TestClient
from tests.host.desk.test_sequences import form

from footlight import examples
from footlight.sequence.setups import load_setups


def marked(browser: TestClient) -> int:
    return browser.get("/begin").text.count("is there</span>")


def sent(browser: TestClient, do: str, **typed: str):
    page = browser.get("/setups").text.replace('method="post" action="/setups"', 'class="sequence"')
    return browser.post("/setups", data=form(page) | typed | {"do": do})


def written(browser: TestClient, changes: str) -> int:
    text = unescape(re.findall(r'<textarea name="text" hidden>\n(.*?)</textarea>', changes, re.DOTALL)[0])
    made_from = re.findall(r'name="made_from" value="(\w+)"', changes)[0]
    return browser.post("/setups/save", data={"text": text, "made_from": made_from}).status_code


def test_from_nothing_to_the_strip(browser: TestClient, book: Path):
    book.unlink()
    assert marked(browser) == 0 and 'aria-current="step"' in browser.get("/begin").text
    browser.post("/sequence/new", data={"example": "reversal-print", "file": "mine.toml"})
    assert marked(browser) == 1, "the shipped light setups are invented, and not done"
    changes = sent(browser, "save", **{"step-1--reference": "7 s at 640 mm f/11"}).text
    assert "7 s at 640 mm f/11" in changes and written(browser, changes) == 303
    reference = load_setups(book.with_name(examples.SETUPS)).setups["second"].setup.reference
    assert reference is not None and (reference.seconds, reference.height_mm) == (7.0, 640.0)
    entered = {
        "paper-added": {"name": "A", "paper": "pearl", "size": "8x10", "sheets": "50"},
        "bath-mixed": {"names": "developer", "volume": "1 L"},
        "lens-added": {"name": "portrait", "focal": "210 mm"},
    }
    for name, typed in entered.items():
        assert browser.post(f"/stock/enter/{name}", data=typed).status_code == 303
    assert marked(browser) == 5
    assert '<a href="/strip">' in browser.get("/begin").text


def test_setups_keep_their_comments_and_tell_their_faults(browser: TestClient, book: Path):
    file = book.with_name(examples.SETUPS)
    file.write_text(examples.text(examples.SETUPS), encoding="utf-8", newline="\n")
    page = sent(browser, "check", **{"step-1--height": "tall", "tray-1--cap": "9 h"}).text
    assert re.search(r'id="step-1--height-wrong"[^>]*>[^<]*tall', page)
    assert re.search(r'id="tray-1--cap-wrong"[^>]*>[^<]*9 h', page)
    assert "/setups/save" not in sent(browser, "save", **{"step-1--lamp": "sun"}).text
    changes = sent(browser, "save", **{"step-1--height": "810 mm"}).text
    file.write_text(file.read_text("utf-8") + "\n# by hand\n", encoding="utf-8", newline="\n")
    assert written(browser, changes) == 409
    changes = sent(browser, "save", **{"step-1--height": "810 mm"}).text
    assert written(browser, changes) == 303
    now, before = file.read_text("utf-8"), examples.text(examples.SETUPS)
    assert now.count("#") == before.count("#") + 1 and 'height = "810 mm"' in now
