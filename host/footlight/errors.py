"""The one root of every error that the tool reports to a person.

What raises an error does not know how it was asked: a text names a value by `field("height")` and another
thing that can be done by `act("paper found")`. Whoever catches it says them in its own words: the command
line as `--height` and `'footlight paper found'`, a page as the label beside the box. Until then they read
plainly.
"""

import re
from collections.abc import Callable

# Private-use characters of Unicode: nobody types them, so no value that is quoted can be taken for a mark.
_FIELD, _ACT, _END = "\ue000", "\ue001", "\ue002"
_MARKED = re.compile(f"([{_FIELD}{_ACT}])([^{_END}]*){_END}")

# What a command ends with, for scripts. An error class has one of them as `exit_code`.
EXIT_CODES = {
    0: "done",
    1: "something is wrong that no other code names; `bringup`: a part does not do what it should",
    2: "what was typed, or stands in a file, is missing, malformed or out of range; nothing was done",
    3: "no controller, or no board, is there",
    4: "several are there, and none was named",
    5: "the link: the port cannot be opened, nothing answers, or the controller said no",
    6: "the board: in use, another one, or its MicroPython does not do",
    7: "the notebook: it cannot be opened, read or written, or has nothing of the name or number that was "
    "typed (sheet, paper, bath, lens, evening, act); nothing in it was changed",
    130: "ended by Ctrl-C",
}


def field(name: str) -> str:
    """A value that was asked for, by its name in the call: `field("height")`."""
    return f"{_FIELD}{name}{_END}"


def act(name: str) -> str:
    """Something that can be done, by its name in the table of commands: `act("paper found")`."""
    return f"{_ACT}{name}{_END}"


def spoken(
    text: str, field_word: Callable[[str], str] | None = None, act_word: Callable[[str], str] | None = None
) -> str:
    """`text` with its marks in the words of whoever tells it; without any, as plain words."""
    words = {
        _FIELD: field_word or (lambda name: name.replace("_", " ")),
        _ACT: act_word or (lambda name: name),
    }
    return _MARKED.sub(lambda mark: words[mark[1]](mark[2]), text)


def fields_in(text: str) -> list[str]:
    """The names of the values that a text marks with `field`, in order."""
    return [name for mark, name in _MARKED.findall(text) if mark == _FIELD]


def _plain(name: str) -> str:
    return name.replace("_", " ")


class FootlightError(Exception):
    """A fault that the user can mend.

    The text is one line: what is wrong (file, step, key, value), what is allowed, what to do.
    `cli.main` prints it and exits with `exit_code`.
    """

    exit_code = 1
    told_as: str | None = None  # by whoever caught it, in its own words

    @property
    def text(self) -> str:
        """What is wrong, its marks still in it."""
        return super().__str__()

    def __str__(self) -> str:
        return spoken(self.text) if self.told_as is None else self.told_as


class InputError(FootlightError):
    """A value given by the user (file, option, argument) is missing, malformed or out of range."""

    exit_code = 2
