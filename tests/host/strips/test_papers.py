"""The campaign of tests/soak/papers.py, short: two dozen papers of all families, two strips each."""

import pytest
from tests.soak import papers


@pytest.fixture(scope="module")
def found():
    return papers.run(24, seed=3)


def test_strips_are_read(found):
    # One in twenty may be refused: a wrong dose is worse than ten refusals.
    assert found["all"]["not read"] <= 1 and found["all"]["papers"] == 24


def test_no_advice_where_there_is_no_window(found):
    assert found["all"]["advised where U is below L"] == 0


def test_advice_is_right(found):
    assert found["all"]["advised"] >= 8
    assert found["all"]["advised between L and U"] == 1
    assert found["all"]["within 0.1 stop of the rule"] >= 0.9


def test_intervals_are_no_idle_talk(found):
    assert 0.7 <= found["all"]["L interval covers"] <= 1
