"""`footlight beside`: two prints of the bench, and what differs."""

import json
import os
import sqlite3
from pathlib import Path

import pytest
from tests.host.repeating.prints import EVENING, asked, refused

from footlight.notebook.acts import act
from footlight.notebook.book import notebook
from footlight.notebook.stock import papers


def rows(*words: object) -> dict[str, dict]:
    return {row["what"]: row for row in json.loads(asked("beside", *words, "--json"))}


@pytest.fixture
def book(folder: Path) -> Path:
    return Path(os.environ["FOOTLIGHT_NOTEBOOK"])


def test_what_the_foot_did_otherwise(folder: Path):
    found = rows(1, 2)
    late = found["first developer, given"]
    assert late["differs"] and late["difference_ms"] == pytest.approx(12_000, abs=500)
    assert not found["rinse, given"]["differs"]
    light = found["second exposure, given"]
    # Stopped and resumed, yet all of it.
    assert (light["differs"], light["difference_stops"]) == (False, 0)
    shown = asked("beside", 1, 2)
    assert "first developer, given" in shown and "rinse" not in shown and "≠" not in shown
    everything = asked("beside", 1, 2, "--all")
    assert "≠ first developer, given" in everything and "  rinse, given" in everything


def test_a_light_at_another_height_is_held_against_what_the_paper_gets(folder: Path, evening_of_three: Path):
    found = rows(1, 3, "--notebook", evening_of_three)
    light = found["second exposure, planned"]
    # 900 mm for 800 mm: the time alone is longer by 0.34 stop more than the light.
    assert light["difference_stops"] == pytest.approx(1 / 3, abs=0.001)
    assert (light["left"], light["right"], light["difference"]) == ("9.99 s", "15.93 s", "+0.33 stop")
    assert found["second exposure, at"]["right"] == "enlarger, 80 mm, 900 mm f/11"
    assert found["second developer, planned"]["difference"] == "+10 s"
    raised = rows(1, 4, "--notebook", evening_of_three)["second exposure, planned"]
    assert (raised["right"], raised["difference"]) == ("12.64 s", "same light")
    assert raised["difference_stops"] == pytest.approx(0, abs=0.001)


def enter(connection: sqlite3.Connection) -> None:
    with act(connection, "papers, baths, camera", EVENING) as number:
        connection.execute("INSERT INTO batches VALUES (1, ?, 'A', 'glossy RC', '8x10', 50)", (number,))
        connection.execute("INSERT INTO batches VALUES (2, ?, 'B', 'glossy RC', '8x10', 50)", (number,))
        papers.put(connection, number, [1], papers.find(connection, "A"))
        papers.put(connection, number, [2], papers.find(connection, "B"))
        connection.execute(
            "INSERT INTO baths VALUES (NULL, ?, 'bleach', '', '', 'bleach', 700, ?, '')",
            (number, EVENING - 3600),
        )
        connection.executemany(
            "INSERT INTO camera_exposures (act_id, sheet_id, given_s, lens, stop) VALUES (?, ?, ?, ?, ?)",
            [(number, 1, 4, "150 mm", "f/32"), (number, 2, 8, "150 mm", "f/32")],
        )


def test_paper_baths_and_camera(book: Path):
    with notebook(book, writing=True) as connection:
        enter(connection)
    found = rows(1, 2)
    assert (found["batch"]["left"], found["batch"]["right"]) == ("A", "B")
    # Twelve minutes make no other bath.
    assert found["bleach"]["left"] == found["bleach"]["right"] == "mixed 2026-03-01 17:00, 1 h old"
    assert found["given"]["difference"] == "+1.00 stop" and not found["lens"]["differs"]


def test_a_print_beside_itself(folder: Path):
    assert asked("beside", 1, 1) == "prints 1 and 1: nothing that is known of them differs\n"


def test_lights_without_their_setups_are_not_reckoned(book: Path):
    with notebook(book, writing=True) as connection:
        connection.execute("UPDATE programs SET setups = ''")
    light = rows(1, 2)["second exposure, planned"]
    assert (light["left"], light["difference_stops"]) == ("9.99 s", None)


def test_a_print_that_is_not_there(folder: Path):
    assert "sheet 44: not in the notebook" in refused("beside", 1, 44)
