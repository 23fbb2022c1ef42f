"""Commands that are named in running text, in messages and in help, and whether there are such."""

import ast
import re
import shlex
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import click
from tests.documents.fences import REPOSITORY

from footlight.cli.main import group

_IN_PAGE = re.compile(r"`footlight ([a-z][^`]*)`")
_IN_TEXT = re.compile(r"[`']footlight ([a-z][^`']*)[`']")
_IN_HELP = re.compile(r"^ *footlight ([a-z-][^|>\n]*?)(?:  +[(#].*| [|>].*)?$", re.MULTILINE)
# Where code of the project stands, and the comments that a maker reads.
_CODE = ("host/footlight", "firmware")


@dataclass(frozen=True)
class Mention:
    """What is typed after `footlight`, and where it is said."""

    typed: str
    where: str


def in_pages() -> Iterator[Mention]:
    """In the running text of every page."""
    for path in (*REPOSITORY.glob("*.md"), *_under("docs", "*.md"), *_under("hardware", "*.md")):
        for typed in _IN_PAGE.findall(path.read_text(encoding="utf-8")):
            yield Mention(typed.replace("\n", " "), _named(path))


def in_code() -> Iterator[Mention]:
    """In every text and every comment of the code: messages, help, docstrings."""
    for path in (path for folder in _CODE for path in _under(folder, "*.py")):
        source = path.read_text(encoding="utf-8")
        for text in (*_texts(ast.parse(source)), *re.findall(r"# .*", source)):
            for typed in _IN_TEXT.findall(text):
                yield Mention(" ".join(typed.split()), _named(path))


def in_help() -> Iterator[Mention]:
    """The examples of every command's help."""
    for path, command in every_command():
        whole_lines = re.sub(r"\\\n *", "", command.help or "")
        for typed in _IN_HELP.findall(whole_lines):
            yield Mention(typed, f"footlight {' '.join(path)} --help")


def every_command(
    command: click.Command = group, path: tuple[str, ...] = ()
) -> Iterator[tuple[tuple[str, ...], click.Command]]:
    """Each command by its path, groups before what they hold."""
    yield path, command
    if isinstance(command, click.Group):
        context = click.Context(command)
        for name in command.list_commands(context):
            below = command.get_command(context, name)
            assert below is not None
            yield from every_command(below, (*path, name))


def trouble(typed: str) -> str:
    """What is wrong with it: an unknown command, option or choice; "" if nothing is."""
    command: click.Command = group
    words = shlex.split(typed)
    while isinstance(command, click.Group) and words and not words[0].startswith("-"):
        below = command.get_command(click.Context(command), words[0])
        if below is None:
            return f"no command '{words[0]}'"
        command, words = below, words[1:]
    try:
        values, _, _ = command.make_parser(click.Context(command)).parse_args(list(words))
    except click.BadOptionUsage:
        # Running text may speak of an option without its value.
        return ""
    except click.UsageError as error:
        return error.format_message()
    return _wrong_choice(command, values)


def _wrong_choice(command: click.Command, values: dict[str, object]) -> str:
    for param in command.params:
        value = values.get(param.name or "")
        choices = param.type.choices if isinstance(param.type, click.Choice) else ()
        if choices and isinstance(value, str) and value not in choices and not _stands_for_others(value):
            return f"'{value}' is no choice of {param.name}"
    return ""


def _stands_for_others(value: str) -> bool:
    return value.isupper() or "…" in value or value.startswith("{")


def _texts(tree: ast.AST) -> Iterator[str]:
    """Every text, those put together of parts as a whole, with `1` for each part that is not known here."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.value
        elif isinstance(node, ast.JoinedStr):
            yield "".join(str(part.value) if isinstance(part, ast.Constant) else "1" for part in node.values)


def _under(folder: str, pattern: str) -> list[Path]:
    return sorted((REPOSITORY / folder).rglob(pattern))


def _named(path: Path) -> str:
    return path.relative_to(REPOSITORY).as_posix()
