"""A sequence arranged in the page: the same file comes out, and nobody's work is lost."""

import re
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from footlight import examples, sequence

AT = "/sequence/print.toml"


@pytest.fixture
def file(book: Path) -> Path:
    path = book.with_name("print.toml")
    path.write_text(examples.text("reversal-print.toml"), encoding="utf-8", newline="\n")
    path.with_name(examples.SETUPS).write_text(examples.text(examples.SETUPS), encoding="utf-8")
    return path


def form(page: str) -> dict[str, str]:
    """What a browser would send of the form that arranges, line ends as browsers send them."""
    page = page[page.index('class="sequence"') :]
    fields = dict(re.findall(r'<input(?! type="checkbox")[^>]*?name="([^"]+)"[^>]*?value="([^"]*)"', page))
    for name, text in re.findall(r'<textarea[^>]*?name="([^"]+)"[^>]*>\n?(.*?)</textarea>', page, re.DOTALL):
        fields[name] = text.replace("\n", "\r\n")
    for name, options in re.findall(r'<select[^>]*?name="([^"]+)"[^>]*>(.*?)</select>', page, re.DOTALL):
        chosen = re.findall(r'<option value="([^"]*)" selected', options)
        fields[name] = chosen[0] if chosen else re.findall(r"<option[^>]*>([^<]*)", options)[0].strip("–")
    ticked = re.findall(r'<input type="checkbox" name="([^"]+)"[^>]*checked', page)
    return {name: unescape(value) for name, value in fields.items()} | dict.fromkeys(ticked, "1")


def sent(browser: TestClient, page: str, do: str, **typed: str) -> str:
    return browser.post(AT, data=form(page) | typed | {"do": do}).text


def saved(browser: TestClient, page: str) -> int:
    changes = browser.post(AT, data=form(page) | {"do": "save"}).text
    assert 'action="/sequence/print.toml/save"' in changes, changes
    fields = {
        name: unescape(text).replace("\n", "\r\n")
        for name, text in re.findall(r'<textarea name="(text)" hidden>\n(.*?)</textarea>', changes, re.DOTALL)
    }
    fields["made_from"] = re.findall(r'name="made_from" value="(\w+)"', changes)[0]
    return browser.post(f"{AT}/save", data=fields).status_code


def test_looked_at_and_saved_it_is_the_same_file(browser: TestClient, file: Path):
    before = file.read_bytes()
    page = browser.get(AT).text
    assert "15:55, if nobody waits" in page and "10.0 s at 800 mm f/11" in page
    assert "Nothing differs from the file" in sent(browser, page, "save")
    assert file.read_bytes() == before


def test_arranged_typed_shown_and_written_with_its_comments(browser: TestClient, file: Path):
    page = sent(browser, browser.get(AT).text, "move 11 10")
    page = sent(browser, page, "check", **{"step-1--time": "2:30", "step-13--note": "look"})
    page = sent(browser, page, "add", add_kind="pause", add_after="2")
    page = sent(browser, page, "move 3 14")
    page = sent(browser, page, "take 14")
    assert file.read_text(encoding="utf-8") == examples.text("reversal-print.toml")
    assert saved(browser, page) == 303
    text = file.read_text(encoding="utf-8")
    steps = sequence.load(file).steps
    assert [step.name for step in steps][9:11] == ["fix, white light", "fix"]
    assert 'time = "2:30"' in text and text.count("#") == examples.text("reversal-print.toml").count("#")


def test_faults_stand_beside_their_fields_and_nothing_is_written(browser: TestClient, file: Path):
    before = file.read_bytes()
    page = sent(
        browser, browser.get(AT).text, "check", **{"step-1--time": "2 apples", "tray-1--size": "large"}
    )
    assert re.search(r'id="step-1--time-wrong"[^>]*>[^<]*2 apples', page)
    assert re.search(r'id="tray-1--size-wrong"[^>]*>[^<]*large', page)
    assert "2 things are wrong" in page
    assert "/save" not in sent(browser, page, "save")
    assert file.read_bytes() == before


def test_a_change_from_outside_is_told_and_neither_is_lost(browser: TestClient, file: Path):
    page = browser.get(AT).text
    made_from = re.findall(r"outside\?made_from=(\w+)", page)[0]
    assert browser.get(f"{AT}/outside?made_from={made_from}").status_code == 204
    file.write_text(file.read_text("utf-8").replace('"2:00"', '"2:10"', 1), "utf-8", newline="\n")
    assert "was changed outside" in browser.get(f"{AT}/outside?made_from={made_from}").text
    mine = sent(browser, page, "check", **{"step-2--time": "40 s"})
    assert "was changed outside" in mine and 'value="40 s"' in mine
    assert "/save" not in browser.post(AT, data=form(mine) | {"do": "save"}).text
    stale = {"text": form(mine)["text"], "made_from": made_from}
    assert browser.post(f"{AT}/save", data=stale).status_code == 409
    assert '"2:10"' in file.read_text("utf-8")
    kept = sent(browser, mine, "keep")
    difference = browser.post(AT, data=form(kept) | {"do": "save"}).text
    assert "2:10" in difference and "40 s" in difference
    assert saved(browser, kept) == 303


@pytest.mark.parametrize("ends", ["\r\n", "\n"])
def test_line_ends_and_a_mark_at_the_head_stay(browser: TestClient, file: Path, ends: str):
    text = "\ufeff" + examples.text("reversal-print.toml").replace("\n", ends)
    file.write_bytes(text.encode("utf-8"))
    assert saved(browser, sent(browser, browser.get(AT).text, "check", **{"head--about": "mine"})) == 303
    written = file.read_bytes().decode("utf-8")
    assert written.startswith("\ufeff") and 'about = "mine"' in written
    assert ("\r\n" in written) == (ends == "\r\n") and "\r\r" not in written


@pytest.mark.parametrize(
    "name", ["..%2Fprint.toml", "/etc/passwd", "%2e%2e/print.toml", "print", ".hidden.toml", "a%5Cb.toml"]
)
def test_only_files_of_the_folder(browser: TestClient, file: Path, name: str):
    answer = browser.get(f"/sequence/{name}")
    assert answer.status_code in (400, 404) and "reversal print" not in answer.text


def test_a_file_that_is_no_toml_is_shown_as_it_is(browser: TestClient, file: Path):
    file.write_text("title = [[[\n<script>", encoding="utf-8")
    page = browser.get(AT).text
    assert "not TOML" in page and "&lt;script&gt;" in page


def test_a_new_one_is_written_and_never_over_another(browser: TestClient, file: Path):
    asked = {"example": "reversal-print", "file": "second.toml"}
    assert browser.post("/sequence/new", data=asked).headers["location"] == "/sequence/second.toml"
    assert "is there already" in browser.post("/sequence/new", data=asked).text
    assert (
        "no name of a sequence file" in browser.post("/sequence/new", data=asked | {"file": "../x.toml"}).text
    )


def test_sending_what_the_page_did_not_show_is_refused(browser: TestClient, file: Path):
    page = browser.get(f"{AT}/plan").text
    made_from = re.findall(r'name="made_from" value="(\w+)"', page)[0]
    file.write_text(file.read_text("utf-8").replace('"2:00"', '"2:10"', 1), "utf-8")
    assert "was changed since this page" in browser.post(f"{AT}/send", data={"made_from": made_from}).text
