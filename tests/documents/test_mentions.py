"""Commands and options that pages, messages and help name are there."""

from collections.abc import Callable, Iterator
from functools import cache

import pytest
from tests.documents import mentions
from tests.documents.mentions import Mention

PLACES: dict[str, Callable[[], Iterator[Mention]]] = {
    "pages": mentions.in_pages,
    "code": mentions.in_code,
    "help": mentions.in_help,
}


@cache
def found(place: str) -> list[Mention]:
    return list(PLACES[place]())


@pytest.mark.parametrize("place", PLACES)
def test_what_is_named_is_there(place: str):
    wrong = [
        f"{one.where}: 'footlight {one.typed}': {why}"
        for one in found(place)
        if (why := mentions.trouble(one.typed))
    ]
    assert wrong == []


@pytest.mark.parametrize(("place", "least"), [("pages", 35), ("code", 60), ("help", 60)])
def test_there_is_much_that_is_named(place: str, least: int):
    assert len(found(place)) > least


def test_every_command_has_an_example():
    shown = {one.where for one in found("help")}
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
