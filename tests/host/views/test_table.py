"""Columns that fit a terminal."""

from footlight.views.json_text import json_text
from footlight.views.table import columns

ROWS = [("first developer", "2:00", "a note of several words that goes on"), ("fix", "1:00", "short")]


def test_as_wide_as_it_comes_without_a_terminal():
    lines = columns(("step", "time", "note"), ROWS)
    assert lines[1] == "first developer  2:00  a note of several words that goes on"
    assert lines[2] == "fix              1:00  short"


def test_words_give_way_and_are_never_broken():
    lines = columns(("step", "time", "note"), ROWS, width=42)
    assert max(map(len, lines)) <= 42
    words = set(" ".join(lines).split())
    assert {"several", "developer", "goes"} <= words


def test_numbers_stay_whole_even_where_they_do_not_fit():
    assert columns(("a", "b"), [("1234567890", "1234567890")], width=10)[1] == "1234567890  1234567890"


def test_json_loses_nothing_in_an_output_that_takes_few_characters():
    assert json_text({"text": "6.0 s → 10.0 s"}, "cp1252", None) == '{"text": "6.0 s \\u2192 10.0 s"}'
    assert json_text({"text": "6.0 s → 10.0 s"}, "utf-8", None) == '{"text": "6.0 s → 10.0 s"}'
    assert json_text("−", None, None) == json_text("−", "no-such-coding", None) == '"\\u2212"'
