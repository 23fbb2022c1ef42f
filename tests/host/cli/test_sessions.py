"""Evenings: told apart by the dates of their runs, named, shown with sheets and baths."""

import pytest
from tests.host.cli.day import Day, day
from tests.host.notebook.journals import BOOT, EVENING, arm

__all__ = ["day"]
HOUR_MS = 3_600_000


@pytest.fixture(autouse=True)
def zone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TZ", "UTC")


def at_hours(day: Day, *hours: float) -> None:
    """A run each so many hours after the evening's beginning; sheets from 100 on."""
    rows: list[tuple[object, ...]] = [BOOT, (0, "date", EVENING)]
    for place, hour in enumerate(hours):
        rows.append(arm(int(hour * HOUR_MS), 100 + place, 100 + place))
        rows.append((int(hour * HOUR_MS) + 1000, "begin", 100 + place, 1, 100 + place))
    day.home(*rows)


def told(day: Day) -> list[tuple[str, list[int]]]:
    return [(one["name"], one["sheets"]) for one in day.json("session list")]


def test_six_hours_part_two_evenings(day: Day):
    # Sheet 41 was printed at the evening's beginning; 5.9 h are no gap, 6.1 are one.
    at_hours(day, 5.9, 11.8, 17.9)
    assert told(day) == [("", [102]), ("", [41, 100, 101])]
    assert [one["sheets"] for one in day.json("session list --last 1")] == [[102]]


def test_a_name_goes_with_the_whole_evening(day: Day):
    day.asked("session name 'first portraits' with music")
    at_hours(day, 2, 30)
    assert told(day) == [("", [101]), ("first portraits", [41, 100])]
    shown = day.json("session show 'first portraits'")
    assert [(run["title"], run["sheets"]) for run in shown["runs"]] == [("PENCIL", [41]), ("PENCIL", [100])]
    assert "with music" in day.asked("session show 'first portraits'")
    assert [one["sheet"] for one in day.json("sheets --session 'first portraits'")] == [100, 41]
    assert told(day)[0] == ("", day.json("session show")["runs"][0]["sheets"])


def test_a_name_with_an_end_holds_what_began_within(day: Day):
    at_hours(day, 1, 2, 3)
    day.asked("session name middle --from '2026-03-01 18:30' --to '2026-03-01 20:30'")
    assert told(day) == [("", [102]), ("middle", [100, 101]), ("", [41])]
    day.asked("undo")
    assert told(day) == [("", [41, 100, 101, 102])]


def test_an_evening_without_a_computer_holds_together(day: Day):
    # The computer tells the time at the end of a later evening; between, the controller was off twice.
    rows: list[tuple[object, ...]] = []
    for evening, hours in enumerate(((0.1, 1), (0.1, 1, 8))):
        rows.append(BOOT)
        for place, hour in enumerate(hours):
            number = 100 + 10 * evening + place
            rows.append(arm(int(hour * HOUR_MS), number, number))
            rows.append((int(hour * HOUR_MS) + 1000, "begin", number, 1, number))
    day.home(*rows, BOOT, (1000, "date", EVENING + 100 * 3600))
    # Eight hours after the second evening's first print is another one; the dated evening is the oldest.
    assert [sheets for _, sheets in told(day)] == [[112], [110, 111], [100, 101], [41]]
    (last, *_, first) = day.json("session list")
    assert (last["dated"], first["dated"]) == (False, True)
    assert last["from_unix_s"] == EVENING and last["to_unix_s"] < EVENING + 100 * 3600
    assert "date unknown, between 2026-03-01 18:00 and 2026-03-05 2" in day.asked("session show")
    assert "when the last evening was is not known" in day.refused("session name x")
    assert day.json("session name x --from '2026-03-01 18:00'")["runs"] != []
    # It may have been on the fourth.
    assert [one["sheet"] for one in day.json("sheets --since 2026-03-04")] == [112, 111, 110, 101, 100]


def test_verdicts_and_baths_stand_beside(day: Day):
    with_bath = "INSERT INTO baths VALUES (1, 1, 'developer', '', 'stock 1+9', 'developer', 1000, ?, '')"
    day.asked("write 41 --verdict good")
    from footlight.notebook.book import notebook

    with notebook(day.path, writing=True) as connection:
        connection.execute(with_bath, (EVENING - 3600,))
        found = "INSERT INTO bath_findings VALUES (?, 1, 1, 'clearing', ?, '', ?)"
        connection.executemany(found, [(1, 30.0, EVENING - 100), (2, 60.0, EVENING + 9000)])
    shown = day.json("session show")
    assert shown["verdicts"] == {"41": "good"}
    assert [(bath["name"], bath["made_from"]) for bath in shown["baths"]] == [("developer", "stock 1+9")]
    assert "developer: stock 1+9, mixed 2026-03-01 17:00" in day.asked("session show")
    # The run began eight seconds after the hour: the bath was an hour old, and the sheet says so.
    assert "baths: developer 1.0 h old, clears in 30 s\n" in day.asked("sheet 41")


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("session name x --from 2026-02-31", "February 2026 has 28 days"),
        ("session name x --from 2999-01-01", "is in the future"),
        ("session name x --from '2026-03-01 18:00' --to '2026-03-01 17:59'", "it ends before it begins"),
        ("session name x --from 2026-03-01 --to 2026-13-01", "months 1 to 12"),
        ("session name ' '", "a name of at least one letter"),
        ("session show x", "there is none of that name; 'footlight session name'"),
        ("sheets --session x", "there is none of that name"),
        ("sheets --since 2026-02-30", "February 2026 has 28 days"),
    ],
)
def test_what_cannot_be(day: Day, line: str, said: str):
    assert said in day.refused(line)
