"""The runner itself: what it takes for a command, what it takes for agreement, and what it refuses."""

import pytest
from tests.documents.answers import agrees
from tests.documents.fences import Block, Told, commands, parts
from tests.documents.shell import NoShellError, typed
from tests.documents.stage import stage


@pytest.mark.parametrize(
    ("shown", "said", "is_so"),
    [
        ("a\nb\n", "a\nb\n", True),
        ("a  \nb\n", "a\nb  \n\n", True),
        ("a\n", "a\nb\n", False),
        ("a\n...\n", "a\nb\nc\n", True),
        ("...\nc\n", "a\nb\nc\n", True),
        ("a\n...\nc\n", "a\nc\n", True),
        ("hash ... kept\n", "hash 1234 kept\n", True),
        ("hash ... kept\n", "hash 1234\nkept\n", False),
        ("...", "", True),
        ("", "a\n", False),
        ("a.c\n", "abc\n", False),
    ],
)
def test_agreement(shown: str, said: str, is_so: bool):
    assert agrees(shown, said) is is_so


def test_a_page_is_read():
    text = "\n".join(
        [
            "<!-- room: empty -->",
            "```console",
            "$ footlight new",
            "reversal-print  a print",
            "$ footlight plan \\",
            "    a.toml",
            "```",
            "<!-- not run: needs a board -->",
            "",
            "```",
            "footlight install",
            "its answer",
            "```",
        ]
    )
    told, first, second = parts(text)
    assert isinstance(told, Told) and (told.word, told.text) == ("room", "empty")
    assert isinstance(first, Block) and isinstance(second, Block)
    assert [(shown.line, shown.output) for shown in commands(first)] == [
        ("footlight new", "reversal-print  a print\n"),
        ("footlight plan a.toml", ""),
    ]
    assert second.reason == "needs a board" and [one.line for one in commands(second)] == [
        "footlight install"
    ]


@pytest.mark.parametrize("text", ["```console\n$ a", "<!-- not run: why -->\nProse."])
def test_a_page_with_a_fault_is_refused(text: str):
    with pytest.raises(ValueError, match="line 1"):
        list(parts(text))


def test_words_as_a_shell_takes_them():
    line = "NO_COLOR=1 footlight light time \"6 s, f/11\" '800 mm'   # carried over"
    command = typed(line)
    assert command.words == ["footlight", "light", "time", "6 s, f/11", "800 mm"]
    assert command.values == {"NO_COLOR": "1"}
    assert typed("footlight mix formulas fixer > my.toml").into == "my.toml"


@pytest.mark.parametrize("line", ["a | b", "(sleep 3; echo long)", "a && b", "a < b", "a >> b"])
def test_what_is_too_much_for_it_is_said(line: str):
    with pytest.raises(NoShellError, match="not run"):
        typed(line)


def test_a_wrong_page_is_noticed(tmp_path):
    """The runner's own alarm: an option that is not there, an answer that is not so."""
    with stage(tmp_path) as room:
        refused = room.run("footlight sheets --sideways")
        assert refused.code == 2 and "--sideways" in refused.text
        assert not agrees("no sheets\n", room.run("footlight sheets").text)
        with pytest.raises(NoShellError):
            room.run("make test")
        with pytest.raises(ValueError, match="does not stand in"):
            room.run("footlight new pre-flash")
            room.obey(Told("edit", "pre-flash.toml: sheets = 7 -> sheets = 8", 1))
        with pytest.raises(ValueError, match="not understood"):
            room.obey(Told("feet", "dance", 1))
