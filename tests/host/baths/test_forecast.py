"""Mix fresh before it is too late: by area, by age as the step is reached, by time, by the sequence."""

import sqlite3
from pathlib import Path

from tests.host.baths.darkroom import EVENING, EXAMPLES, HOUR, Darkroom, compiled
from tests.host.baths.test_visits import mixed

from footlight.baths import planned
from footlight.baths.condition import shelf
from footlight.baths.forecast import Forecast, forecast, of_next_sheet
from footlight.notebook.stock import baths
from footlight.notebook.stock.baths import Finding

BATCH = """
title = "BATCH"
name = "a batch of prints"
sheet = "11x14"
sheets = 5

[trays.developer]
[trays.bleach]
bath = "acid peroxide bleach"
[trays.rinse]
life = "one sheet"
[trays.water]

[[step]]
kind = "bath"
name = "first"
tray = "developer"
time = "10:00"
[[step]]
kind = "bath"
name = "rinse"
tray = "rinse"
time = "1:00"
[[step]]
kind = "bath"
name = "bleach"
tray = "bleach"
time = "10:00"
[[step]]
kind = "bath"
name = "wash"
tray = "water"
time = "1:00"
[[step]]
kind = "bath"
name = "second"
tray = "developer"
time = "8:00"
"""


def a_batch(folder: Path):
    (folder / "batch.toml").write_text(BATCH, encoding="utf-8")
    return compiled(folder / "batch.toml")


def ahead(book: sqlite3.Connection, one, now_s: int) -> Forecast:
    return forecast(one, shelf(book, now_s, ["developer", "bleach", "clear", "fixer"]))


def test_by_area(book: sqlite3.Connection, tmp_path: Path):
    # 11x14 is 1.925 sheets of 8x10; half a litre of bleach does 7.5 at most: three sheets (5.775), not four
    # (7.7). The developer is visited twice: 3.85 a sheet, of 25 at most: 19.25 after all five.
    mixed(book, EVENING, [("bleach", "bleach"), ("developer", "developer")], 500.0)
    found = ahead(book, a_batch(tmp_path), EVENING)
    assert found.warnings == [
        "Mix fresh bleach before sheet 4 of this batch: 7.7 of 7.5 sheets of 8x10 by then (the"
        " trade's range)."
    ]
    assert {one.tray: one.sheets_left for one in found.outlooks} == {"developer": (1, 6), "bleach": (1, 3)}
    assert found.unknown == () and found.unknown_text is None


def test_by_age_when_the_step_is_reached(book: sqlite3.Connection, tmp_path: Path):
    # Each sheet takes half an hour; its bleaching begins after 11 minutes. The bath is 2.4 h old at first,
    # of 4 at most: at sheet 4 it is 2.4 + 1.5 + 0.183 = 4.08 h.
    mixed(book, EVENING - round(2.4 * HOUR), [("bleach", "bleach")], 5000.0)
    found = ahead(book, a_batch(tmp_path), EVENING)
    assert found.warnings == [
        "Mix fresh bleach before sheet 4 of this batch: "
        "4.1 h in its tray by then, of 4 h (the trade's range)."
    ]
    assert found.unknown == ("developer",)


def test_by_clearing_time(book: sqlite3.Connection, tmp_path: Path):
    mixed(book, EVENING, [("bleach", "bleach")], 5000.0)
    times = [
        Finding("clearing", seconds, at_unix_s=EVENING + place) for place, seconds in enumerate((90.0, 180.0))
    ]
    baths.note(book, [(baths.current(book, "bleach"), one) for one in times], EVENING + HOUR)
    found = ahead(book, a_batch(tmp_path), EVENING + 60)
    assert found.warnings == ["Mix fresh bleach before sheet 1 of this batch: it takes 2 × its fresh time."]


def test_by_the_word_of_the_sequence(book: sqlite3.Connection, darkroom: Darkroom):
    # The shipped print lets a filling of bleach serve four sheets.
    mixed(book, EVENING - 60)
    one = darkroom.know(compiled())
    for sheet in range(1, 5):
        assert ahead(book, one, EVENING).warnings == []
        darkroom.carry_out(one, sheet, EVENING)
    assert ahead(book, one, EVENING).warnings == [
        "Mix fresh bleach before this run: its tray is to serve 4 sheets, and this is sheet 5."
    ]


def test_unknown_baths_are_said_once(book: sqlite3.Connection):
    found = ahead(book, compiled(), EVENING)
    assert found.outlooks == () and found.warnings == []
    assert found.unknown_text is not None
    assert found.unknown_text.startswith("The notebook has no bath for developer, bleach, clear and fixer:")


def test_a_dry_sequence_has_nothing_to_say(book: sqlite3.Connection):
    assert ahead(book, compiled(EXAMPLES / "pre-flash.toml"), EVENING) == Forecast((), (), 8)


def test_the_next_sheet_after_a_run(book: sqlite3.Connection, darkroom: Darkroom):
    # 100 mL of fixer does 4 at most; the developer, 5, holds two prints of two visits and not a third.
    one = darkroom.know(compiled())
    mixed(book, EVENING, volume_ml=100.0)
    mixed(book, EVENING, [("bleach", "bleach")])
    plan = planned.of_sequence(one.sequence)
    for sheet in (1, 2):
        assert of_next_sheet(shelf(book, EVENING), plan, one.program["steps"]) == []
        darkroom.carry_out(one, sheet, EVENING)
    assert of_next_sheet(shelf(book, EVENING), plan, one.program["steps"]) == [
        "Mix fresh developer before the next sheet: 6 of 5 sheets of 8x10 by then (the trade's range)."
    ]
