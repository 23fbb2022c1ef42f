"""Moments as they are written, and dates that there are not."""

import time
from collections.abc import Iterator

import pytest

from footlight.errors import InputError
from footlight.quantities.moment import parse_moment

# 2026-03-01 18:00:00 UTC, by the `date` of a POSIX system.
NOW = 1_772_388_000


@pytest.fixture(autouse=True)
def zone(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    monkeypatch.setenv("TZ", "UTC")
    time.tzset()
    yield
    monkeypatch.undo()
    time.tzset()


@pytest.mark.parametrize(
    ("written", "before_now_s"),
    [
        ("now", 0),
        ("18:00", 0),
        ("17:30", 1800),
        ("2026-03-01 17:30", 1800),
        ("2026-03-01T17:30", 1800),
        ("2026-3-1", 18 * 3600),
        ("today", 18 * 3600),
        ("yesterday", 42 * 3600),
        ("yesterday 21:15", 20 * 3600 + 45 * 60),
        # 2024 has a 29 February; 365 days and one to the first of March of 2025, 365 more to that of 2026.
        ("2024-02-29 18:00", 731 * 86_400),
    ],
)
def test_moments(written: str, before_now_s: int):
    assert parse_moment(written, "--at", NOW) == NOW - before_now_s


def test_the_end_of_a_day():
    assert parse_moment("2026-02-28", "--to", NOW, end=True) == NOW - 18 * 3600 - 1
    assert parse_moment("today", "--to", NOW, end=True) == NOW


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("2026-02-31", "'2026-02-31' is no date: February 2026 has 28 days"),
        ("2026-13-01", "months 1 to 12"),
        ("2026-00-10", "months 1 to 12"),
        ("0026-01-10", "years from 1990"),
        ("2026-02-00", "February 2026 has 28 days"),
        ("2026-03-02", "'2026-03-02' is in the future; it is 2026-03-01 18:00"),
        ("18:01", "in the future"),
        ("25:00", "time of day from 0:00 to 23:59"),
        ("2026-02-01 7:60", "time of day"),
        ("1.3.2026", "is no date or time; write for example"),
        ("soon", "is no date or time"),
        ("", "--at"),
    ],
)
def test_dates_that_there_are_not(written: str, said: str):
    with pytest.raises(InputError) as caught:
        parse_moment(written, "--at", NOW)
    assert said in str(caught.value) and "\n" not in str(caught.value)
