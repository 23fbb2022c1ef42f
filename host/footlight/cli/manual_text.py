"""The manual as plain text, for terminals without `man`."""

import textwrap
from collections.abc import Iterator

from footlight import __version__
from footlight.cli.description import Described, Paragraph, sections
from footlight.errors import EXIT_CODES

_WIDTH, _INDENT = 96, "    "


def text() -> str:
    """The whole manual."""
    lines = [f"footlight {__version__}", ""]
    for heading, commands in sections():
        lines += [heading.upper(), ""]
        for command in commands:
            lines += [*_command(command), ""]
    lines += ["EXIT STATUS", ""]
    for code, meaning in EXIT_CODES.items():
        lines += _wrapped(f"{code:<5}{meaning}", " " * 9)
    return "\n".join(lines) + "\n"


def _command(command: Described) -> Iterator[str]:
    yield f"{command.name} {command.usage}"
    for number, part in enumerate(command.text or [Paragraph(command.purpose, is_laid_out=False)]):
        if number:
            yield ""
        yield from (
            textwrap.indent(part.text, _INDENT).splitlines() if part.is_laid_out else _wrapped(part.text)
        )
    if command.options:
        yield ""
    for names, meaning in command.options:
        yield _INDENT + names
        yield from _wrapped(" ".join(meaning.split()), _INDENT * 2, _INDENT * 2)
    if command.examples:
        yield from ("", f"{_INDENT}Example:")
        yield from (f"{_INDENT}  {line}" for line in command.examples)


def _wrapped(text: str, later: str = _INDENT, first: str = _INDENT) -> list[str]:
    return textwrap.wrap(text, _WIDTH, initial_indent=first, subsequent_indent=later)
