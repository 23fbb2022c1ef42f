"""The desk's sums say what the commands say, and every one of them has an example that works."""

import re
from html import unescape

import pytest
from click.testing import CliRunner
from starlette.testclient import TestClient

from footlight.cli.main import group
from footlight.desk.sums import SUMS


def answer(page: str) -> list[str]:
    shown = page[page.index('id="answer"') :]
    return [unescape(text).strip() for text in re.findall(r"<p[^>]*>(.*?)</p>", shown.split("</section>")[0])]


@pytest.mark.parametrize("name", SUMS)
def test_each_begins_with_an_example_that_is_answered(browser: TestClient, name: str):
    page = browser.get(f"/reckon/{name}").text
    assert "An example stands here" in page
    assert not re.search(r"aria-invalid", page)
    assert answer(page) or 'class="safety"' in page


COMMANDS = [
    ("time?found=6 s, 620 mm, f/11&new=800 mm", 'light time "6 s, 620 mm, f/11" "800 mm"'),
    ("height?found=6 s, 620 mm, f/11&wanted=10 s", 'light height "6 s, 620 mm, f/11" --for "10 s"'),
    ("camera-time?reading=EV 12&stop=f/22&ei=4", 'camera time "EV 12" f/22 --ei 4'),
    ("bellows?lens=12 in&draw=18 in&seconds=8 s", 'camera bellows "8 s" --lens "12 in" --draw "18 in"'),
    ("tray?size=9.5x12 in&amount=15 mm", 'mix tray "9.5x12 in" "15 mm"'),
    ("which?stock=37 mL&water=410 mL", 'mix which "37 mL" "410 mL"'),
]


@pytest.mark.parametrize(("address", "command"), COMMANDS)
def test_page_and_command_say_the_same(browser: TestClient, address: str, command: str):
    import shlex

    said = [
        line.strip().removeprefix("! ")
        for line in CliRunner().invoke(group, shlex.split(command)).output.splitlines()
    ]
    shown = answer(browser.get(f"/reckon/{address}".replace(" + ", " %2B ")).text)
    assert sorted(set(shown)) == sorted(set(said)) and shown[0] == said[0]


def test_a_script_asks_for_the_answer_alone_and_faults_stand_beside_their_fields(browser: TestClient):
    part = browser.get("/reckon/time?found=6&new=800 mm", headers={"hx-request": "true"}).text
    assert "<html" not in part and part.count("hx-swap-oob") == len(SUMS["time"].everything)
    assert re.search(r'id="found-wrong"[^>]*hx-swap-oob="true"[^>]*>\s*<b>Exposure found good</b>', part)


def test_what_is_typed_is_never_markup(browser: TestClient):
    page = browser.get("/reckon/time", params={"found": '"><script>1</script>', "new": "<b>"}).text
    assert "<script>1" not in page
