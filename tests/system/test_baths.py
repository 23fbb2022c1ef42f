"""A run on the bench against the baths in the notebook: its visits by hand, the warning as it comes home."""

import json
import time
from pathlib import Path

import pytest
from tests.host.notebook.journals import Line

from footlight import examples
from footlight.actions import collect_journal, forecast_baths, send_sequence
from footlight.baths.condition import Condition, shelf, unknown_sheets
from footlight.bench import Bench
from footlight.bench.feet import Feet, Slip
from footlight.link.channel import Channel
from footlight.notebook.book import notebook
from footlight.notebook.journal import bring, derive
from footlight.notebook.stock import baths
from footlight.notebook.stock.baths import Mixed
from footlight.sequence import compile as compiled
from footlight.sequence import load

EXAMPLES = examples.path("reversal-print").parent

NAMES = {
    "developer": "developer",
    "bleach": "bleach",
    "clear": "clearing",
    "fixer": "fixer",
    "water": "other",
}


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, collect_journal.Home, int]:
    """One print; the power fails in the second developer, and the run is gone on with."""
    folder = tmp_path_factory.mktemp("baths")
    book, now_s = folder / "notebook.sqlite", int(time.time())
    one = compiled(load(EXAMPLES / "reversal-print.toml"))
    with notebook(book, writing=True) as connection:
        # A tenth of a litre of developer holds five sheets of 8x10 at most, and the bath before it is over.
        baths.mix(
            connection,
            [Mixed(name, "", "", kind, 1000.0, now_s - 7200) for name, kind in NAMES.items()],
            now_s,
        )
        baths.mix(connection, [Mixed("developer", "", "", "developer", 100.0, now_s - 3600)], now_s)
    with Bench(folder / "bench") as bench:
        bench.switch_on()
        channel = _greeted(bench, now_s)
        send_sequence.keep_and_send(channel, one, book, now_s)
        bench.run_for(3000)
        feet = Feet(bench)
        feet.arm(0, is_batch=False)
        feet.carry_out(one.program, {8: Slip(cut_ms=30_000)})
        feet.put_away()
        back = collect_journal.bring_home(_greeted(bench, now_s + bench.now_ms // 1000), book, now_s + 3600)
    return book, back, now_s


def _greeted(bench: Bench, unix_s: int) -> Channel:
    channel = Channel(bench.stream(), clock=bench.stream().clock)
    channel.greet(unix_s=unix_s)
    return channel


def stands(book: Path, at_s: int) -> dict[str, Condition]:
    with notebook(book, writing=False) as connection:
        found = shelf(connection, at_s)
        assert unknown_sheets(connection, found) == 0
    return {one.bath.name: one for one in found.in_use}


def test_visits_area_and_age_by_hand(home: tuple[Path, collect_journal.Home, int]):
    book, back, now_s = home
    assert sorted(back.brought.sheets) == [1]
    found = stands(book, now_s + 3600)
    # First steps of each stay; the developer was cut off in step 8 and gone on with: still one visit, the
    # sheet never left the tray. Both halves of the fixing are one. Water is filled anew for each sheet.
    steps = {name: [visit.step for visit in one.visits] for name, one in found.items()}
    assert steps == {"developer": [1, 8], "bleach": [3], "clear": [5], "fixer": [10], "water": []}
    assert {name: one.used_8x10 for name, one in found.items()} == {
        "developer": 2.0, "bleach": 1.0, "clear": 1.0, "fixer": 1.0, "water": 0.0,
    }  # fmt: skip
    assert {name: one.age_h for name, one in found.items()} == {
        "developer": 2.0, "bleach": 3.0, "clear": 3.0, "fixer": 3.0, "water": 3.0,
    }  # fmt: skip
    # The feet press half-way between least and most, as the plan has it: 1:30 to 4:00.
    assert found["bleach"].visits[0].cleared_s == pytest.approx(165, abs=2)


def test_the_moment_of_each_visit(home: tuple[Path, collect_journal.Home, int]):
    book, _, now_s = home
    found = stands(book, now_s + 3600)
    first, second = found["developer"].visits
    # Before the power cut the date is known to the second; from 2:00 + 0:30 on the bleach, as planned.
    assert found["bleach"].visits[0].unix_s - first.unix_s == pytest.approx(150, abs=8)
    assert now_s < first.unix_s < second.unix_s <= found["fixer"].visits[0].unix_s


def test_the_journal_again_changes_nothing(home: tuple[Path, collect_journal.Home, int]):
    book, _, now_s = home
    before = stands(book, now_s)
    with notebook(book, writing=True) as connection:
        lines = connection.execute("SELECT number, line, whole FROM journal ORDER BY number").fetchall()
        epoch = connection.execute("SELECT id FROM epochs").fetchone()["id"]
        again = [Line(row["number"], row["line"], _record(row["line"]), bool(row["whole"])) for row in lines]
        bring.bring(connection, epoch, again, now_s + 7200)
        derive.rebuild(connection)
    assert stands(book, now_s) == before


def _record(line: str) -> dict:
    return json.loads(line[: line.rindex("}") + 1])


def test_it_is_said_as_it_comes_home(home: tuple[Path, collect_journal.Home, int]):
    # Two of five are used; the next print takes two more, and the one after would be too many.
    book, back, now_s = home
    assert forecast_baths.spent_by_another(book, back.controller, back.brought.runs, now_s) == []
    with notebook(book, writing=True) as connection:
        baths.mix(connection, [Mixed("developer", "", "", "developer", 70.0, now_s - 60)], now_s)
    assert forecast_baths.spent_by_another(book, back.controller, back.brought.runs, now_s) == [
        "Mix fresh developer before the next sheet: 4 of 3.5 sheets of 8x10 by then (the trade's range)."
    ]
