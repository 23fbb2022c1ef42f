"""The little of a shell that pages need: words, comments, `> FILE`, and values put before a command."""

import re
import shlex
from dataclasses import dataclass

_TOO_MUCH = ("|", "||", "&&", ";", "(", ")", "<", ">>", "&")
_VALUE = re.compile(r"([A-Z0-9_]+)=(.*)")


class NoShellError(ValueError):
    """More than this shell can do: the page must mark the block as not run, and say why."""


@dataclass(frozen=True)
class Typed:
    """A command line taken apart. into: the file that its answer goes to, "" if it is shown."""

    words: list[str]
    values: dict[str, str]
    into: str = ""


def typed(line: str) -> Typed:
    """A line as it was typed. Raises NoShellError."""
    scanner = shlex.shlex(line, posix=True, punctuation_chars="();<>|&")
    scanner.commenters = "#"
    scanner.whitespace_split = True
    words, into = _redirected(list(scanner))
    if strange := [word for word in words if word in ("|", "||", "&&", ";", "(", ")", "<", ">>", "&")]:
        raise NoShellError(
            f"'{strange[0]}' is too much for this runner; mark the block '<!-- not run: WHY -->'"
        )
    values = {}
    while words and (value := _VALUE.fullmatch(words[0])):
        values[value[1]] = value[2]
        words = words[1:]
    return Typed(words, values, into)


def _redirected(words: list[str]) -> tuple[list[str], str]:
    if len(words) > 2 and words[-2] == ">":
        return words[:-2], words[-1]
    return words, ""
