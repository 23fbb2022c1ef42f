"""A bench at a port, hammered by browsers at the desk while a foot gives a light: the run does not change.

The referee and the sheet ledger of `tests/conftest.py` judge the bench as every other.
"""

import threading
import time
from pathlib import Path

from starlette.testclient import TestClient
from tests.controller.stage import BATH, LIGHT, armed, gate_ms, records
from tests.controller.stage import program as program_of

from footlight.bench.serve import TCP, serving
from footlight.desk.app import make_app
from footlight.desk.desk import Desk
from footlight.desk.guard import Keys
from footlight.desk.live import Follower
from footlight_core import program

HOME = "http://127.0.0.1:8724"
SHORT = LIGHT | {"time_ms": 2_000}
PAGES = ("/tonight/run", "/tonight", "/tonight/run")


def hammer(app, keys: Keys, until: threading.Event, seen: list[str]) -> None:
    browser = TestClient(app, HOME, headers={"origin": HOME})
    browser.get(f"/?token={keys.token}")
    while not until.is_set():
        for page in PAGES:
            seen.append(browser.get(page).text)
        seen.append(browser.post("/tonight/collect").text)


def test_a_light_is_given_as_planned_while_browsers_ask_and_ask(tmp_path: Path):
    keys = Keys(frozenset({"127.0.0.1:8724"}))
    with (
        armed(tmp_path / "bench", program_of(SHORT, BATH)) as bench,
        serving(bench, TCP, speed=2.0) as address,
    ):
        desk = Desk(tmp_path / "notebook.sqlite", tmp_path, address)
        follower, until, seen = Follower(desk), threading.Event(), []
        follower.come()
        threads = [
            threading.Thread(target=hammer, args=(make_app(desk, keys), keys, until, seen), daemon=True)
            for _ in range(2)
        ]
        try:
            for thread in threads:
                thread.start()
            time.sleep(0.4)
            bench.press()
            time.sleep(0.1)
            bench.release()
            time.sleep(SHORT["time_ms"] / 2000 + 0.5)
        finally:
            until.set()
            follower.go()
        for thread in threads:
            thread.join(10)
    assert len(seen) > 5 and any("new record" in page for page in seen)
    (lit_ms,) = gate_ms(bench)
    assert abs(lit_ms - program.gate_ms(SHORT)) < 1
    assert [record["how"] for record in records(bench, "gave")] == ["whole"]
