"""Every command as data, from the commands themselves: for the manual and for the pages of reference."""

import inspect
import re
from collections.abc import Iterator
from dataclasses import dataclass

import click

from footlight.cli.table import QUIET_OPTION, Table

_VERBATIM = "\b"
_EXAMPLE = re.compile(r"examples?:?\s*$", re.IGNORECASE)


@dataclass(frozen=True)
class Paragraph:
    """A part of a help text. is_laid_out: its lines stay as they are."""

    text: str
    is_laid_out: bool


@dataclass(frozen=True)
class Described:
    """One command. path: its words after `footlight`, none for the whole; purpose: its one line.

    usage: what may follow its words. options: (how it is written, what it does), those that every command has
    left out.
    """

    path: tuple[str, ...]
    purpose: str
    usage: str
    text: list[Paragraph]
    options: list[tuple[str, str]]
    examples: list[str]

    @property
    def name(self) -> str:
        """As it is typed."""
        return " ".join(("footlight", *self.path))


def sections() -> list[tuple[str, list[Described]]]:
    """The headings of the help, each with its commands and all that these hold."""
    from footlight.cli.main import group

    context = _context(group, ())
    return [
        (heading, [one for name, row in rows.items() for one in _below(group, context, (name,), row[1])])
        for heading, rows in group.sections.items()
    ]


def _below(parent: Table, above: click.Context, path: tuple[str, ...], purpose: str) -> Iterator[Described]:
    command = parent.get_command(above, path[-1])
    assert command is not None, path
    context = _context(command, path, above)
    yield _described(command, context, path, purpose)
    if isinstance(command, Table):
        for name, (_, line) in command.rows.items():
            yield from _below(command, context, (*path, name), line)


def _context(
    command: click.Command, path: tuple[str, ...], above: click.Context | None = None
) -> click.Context:
    return click.Context(command, parent=above, info_name=path[-1] if path else "footlight")


def _described(
    command: click.Command, context: click.Context, path: tuple[str, ...], purpose: str
) -> Described:
    paragraphs = list(_paragraphs(command.help or ""))
    return Described(
        path=path,
        purpose=purpose,
        usage=" ".join(command.collect_usage_pieces(context)),
        text=[part for part in paragraphs if not _is_example(part)],
        options=list(_options(command, context)),
        examples=[line for part in paragraphs if _is_example(part) for line in _example_lines(part)],
    )


def _options(command: click.Command, context: click.Context) -> Iterator[tuple[str, str]]:
    for param in command.params:
        record = param.get_help_record(context)
        # An argument without a word about it stands in the usage already.
        if record and param is not QUIET_OPTION and (record[1] or isinstance(param, click.Option)):
            yield record


def _paragraphs(help_text: str) -> Iterator[Paragraph]:
    for part in re.split(r"\n\s*\n", inspect.cleandoc(help_text)):
        prose, _, laid_out = part.partition(_VERBATIM)
        if prose.strip():
            yield Paragraph(" ".join(prose.split()), is_laid_out=False)
        if laid_out:
            yield Paragraph(laid_out.replace(_VERBATIM, "").strip("\n"), is_laid_out=True)


def _is_example(part: Paragraph) -> bool:
    lines = [line for line in part.text.splitlines() if not _EXAMPLE.match(line)]
    return part.is_laid_out and any(line.lstrip().startswith("footlight ") for line in lines)


def _example_lines(part: Paragraph) -> list[str]:
    lines = inspect.cleandoc(part.text).splitlines()
    return [
        line.strip() if not line.startswith("    ") else line for line in lines if not _EXAMPLE.match(line)
    ]
