"""Numbers that are none, names that are empty, figures that are slips: one line, and nothing is entered."""

import shlex

import click
import pytest
from tests.host.cli.day import Day, day

from footlight.cli.main import group

__all__ = ["day"]

NO_NUMBERS = ("0", "now", "1.5", "²", "9" * 8, "9" * 400)
NUMBERED = (
    "sheet {}",
    "write {} good",
    "expose {} --given '3 s'",
    "expose 41 --as {}",
    "attach {} --out out.jpg",
    "again {}",
    "beside 41 {}",
    "page sheet {}",
    "undo {}",
    "reinstate {}",
    "sheets --last {}",
    "history --last {}",
    "search good --last {}",
)


@pytest.mark.parametrize("line", NUMBERED)
def test_what_is_no_number_is_said_in_its_own_words(day: Day, line: str):
    for number in NO_NUMBERS:
        with pytest.raises(click.UsageError, match=rf"'{number}' is no whole number from 1 to 9999999"):
            group.main(shlex.split(line.format(number)), standalone_mode=False)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("search ''", "nothing to look for"),
        ("search ' ' ' '", "nothing to look for"),
        ("paper add A '' --size 8x10 --sheets 5", "paper 'A': say what it is"),
        ("paper add '' baryta --size 8x10 --sheets 5", "at least one letter"),
        ("lens add wide --focal '90 mm' --true 'f/32 = 2.94'", "more than two stops from its mark"),
        ("bath mixed '' --volume '1 l'", "NAME: '' is no tray's name"),
        ("session name ''", "at least one letter"),
        ("read kept 99999999999999999999", "so many digits"),
    ],
)
def test_what_is_empty_or_a_slip(day: Day, line: str, said: str):
    assert said in day.refused(line)
    assert day.json("history") == []


@pytest.mark.parametrize(
    ("written", "said"),
    [(None, "cannot be read (no such file or directory)"), ("title = 'PRINT'", "no exported notebook")],
)
def test_what_is_no_export(day: Day, tmp_path, written: str | None, said: str):
    out = tmp_path / "out.json"
    if written:
        out.write_text(written, encoding="utf-8")
    assert day.refused(f"restore {out} --notebook {tmp_path / 'new.sqlite'}").startswith(f"{out}: {said}")
