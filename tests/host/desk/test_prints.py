"""Prints, what is written of them, and what is taken back: as the commands say it."""

import re
from pathlib import Path

import pytest
from click.testing import CliRunner
from starlette.testclient import TestClient

from footlight.cli.main import group


def made_from(page: str) -> str:
    return re.findall(r'name="made_from" value="(\w+)"', page)[0]


def command(book: Path, *words: str) -> str:
    return CliRunner().invoke(group, [*words, "--notebook", str(book)]).output


def test_a_verdict_in_two_taps_and_back(browser: TestClient, book: Path):
    assert '<a href="/prints/41">41</a>' in browser.get("/prints").text
    page = browser.get("/prints/41").text
    answer = browser.post("/prints/41/write", data={"verdict": "good", "made_from": made_from(page)})
    assert answer.status_code == 303
    written = browser.get(answer.headers["location"]).text
    assert "Written: sheet 41: verdict good" in written and 'aria-pressed="true">good' in written
    assert "verdict: good" in command(book, "sheet", "41")
    browser.post("/history/turn", data={"act": "1", "turn": "undo"})
    assert "taken back" in command(book, "history") and "verdict: good" not in command(book, "sheet", "41")
    browser.post("/history/turn", data={"act": "1", "turn": "reinstate"})
    assert "verdict: good" in command(book, "sheet", "41")


def test_a_form_that_is_stale_is_told_and_keeps_what_was_typed(browser: TestClient, book: Path):
    made = made_from(browser.get("/prints/41").text)
    command(book, "write", "41", "written", "meanwhile")
    answer = browser.post("/prints/41/write", data={"note": "my own words", "made_from": made})
    assert answer.status_code == 409
    assert "written meanwhile" in answer.text and "my own words</textarea>" in answer.text
    assert "my own words" not in command(book, "sheet", "41")
    again = {"note": "my own words", "made_from": made_from(answer.text)}
    assert browser.post("/prints/41/write", data=again).status_code == 303
    assert "my own words" in command(book, "sheet", "41")


def test_what_was_written_is_text_and_never_markup(browser: TestClient, book: Path):
    command(book, "write", "41", '<script>alert("x")</script> & "quoted"')
    for path in ("/prints/41", "/prints/search?words=script", "/history", "/prints/41/report"):
        page = browser.get(path).text
        assert "<script>alert" not in page and "&lt;script&gt;" in page


def test_a_mistake_stands_beside_its_field(browser: TestClient):
    page = browser.get("/prints?since=yesterday%20or%20so")
    assert re.search(r'id="since"[^>]*aria-invalid="true"', page.text)
    assert 'id="since-wrong"' in page.text
    assert "<b>Since</b>" in page.text


@pytest.mark.parametrize(
    ("name", "value"), [("verdict", "splendid"), ("defects", "<b>"), ("paper", "none such")]
)
def test_nothing_is_written_that_the_commands_would_not_write(browser: TestClient, book: Path, name, value):
    made = made_from(browser.get("/prints/41").text)
    answer = browser.post("/prints/41/write", data={name: value, "made_from": made})
    assert answer.status_code == 400
    assert "written" not in command(book, "history")
    assert not browser.get("/history").text.count("Take back")


def test_a_file_that_is_no_picture_is_told(browser: TestClient):
    made = made_from(browser.get("/prints/41").text)
    sent = {"picture": ("../../<x>.png", b"\x89PNG no more", "image/png")}
    answer = browser.post("/prints/41/write", data={"made_from": made}, files=sent)
    assert answer.status_code == 400
    assert 'id="picture-wrong"' in answer.text and "_x_.png" in answer.text and "/tmp" not in answer.text


def test_every_page_of_a_notebook_that_is_damaged_says_so(browser: TestClient, book: Path):
    book.write_bytes(b"no notebook at all")
    for path in ("/tonight", "/prints", "/prints/41", "/stock", "/history"):
        answer = browser.get(path)
        assert answer.status_code == 400 and "is no notebook, or is damaged" in answer.text


def test_without_a_notebook_the_pages_say_what_to_do(browser: TestClient, book: Path):
    book.unlink()
    assert browser.get("/tonight").status_code == 200
    assert "the first thing that you write down makes it" in browser.get("/stock").text
    for path in ("/prints", "/history"):
        assert "no notebook there yet" in browser.get(path).text
