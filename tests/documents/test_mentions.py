"""Commands and options that pages, messages and help name are there."""

import pytest
from tests.documents import mentions

FOUND = {
    "pages": list(mentions.in_pages()),
    "code": list(mentions.in_code()),
    "help": list(mentions.in_help()),
}


@pytest.mark.parametrize("place", FOUND)
def test_what_is_named_is_there(place: str):
    wrong = [
        f"{one.where}: 'footlight {one.typed}': {why}"
        for one in FOUND[place]
        if (why := mentions.trouble(one.typed))
    ]
    assert wrong == []


@pytest.mark.parametrize(("place", "least"), [("pages", 35), ("code", 60), ("help", 60)])
def test_there_is_much_that_is_named(place: str, least: int):
    assert len(FOUND[place]) > least


def test_every_command_has_an_example():
    shown = {one.where for one in FOUND["help"]}
    leaves = [path for path, command in mentions.every_command() if not hasattr(command, "list_commands")]
    assert [path for path in leaves if f"footlight {' '.join(path)} --help" not in shown] == []


@pytest.mark.parametrize(
    ("typed", "why"),
    [
        ("collect", ""),
        ("mix peroxide '10 % w/w' '1 L' --stock '30 % w/w'", ""),
        ("plan FILE --judged most", ""),
        ("plan FILE --judged sometimes", "no choice"),
        ("gather", "no command"),
        ("mix potion", "no command"),
        ("collect --sideways", "No such option"),
        ("collect --port", ""),
    ],
)
def test_trouble_is_noticed(typed: str, why: str):
    said = mentions.trouble(typed)
    assert (why in said) if why else said == ""
