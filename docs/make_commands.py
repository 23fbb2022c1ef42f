"""Writes docs/reference-commands.md from the commands themselves: `python docs/make_commands.py`."""

from collections.abc import Iterator
from pathlib import Path

from footlight.cli.description import Described, sections
from footlight.errors import EXIT_CODES
from footlight.settings import FILE_ENV, SETTINGS

PAGE = Path(__file__).with_name("reference-commands.md")

HEAD = """# Commands

Made by `docs/make_commands.py` from the commands themselves; a test holds this page to them. The same text is
`footlight COMMAND --help`; `footlight manual` shows all of it at a terminal. Files have
[a page of their own](reference-files.md).

## What holds for every command

| option | does |
|---|---|
| `-h`, `--help` | says what the command does, with an example |
| `-q`, `--quiet` | no hints and no progress: results and errors alone |
| `--json` | for scripts, where a command has it: one JSON value, with units in the keys |

Results go to the standard output, everything else to the standard error. An error is one line that says what
is wrong and what to do. Colour is only used at a terminal, and never while `NO_COLOR` has a value.

### Exit codes

{codes}

### Settings

An option wins over the environment, that over the settings file, that over the default. The file is TOML;
`footlight settings` says where it lies and what holds, `footlight settings set` and `unset` change it.

{settings}

The variable `{file_env}` names another settings file.
"""


def page() -> str:
    """The whole page."""
    parts = [HEAD.format(codes=_codes(), settings=_settings(), file_env=FILE_ENV)]
    for heading, commands in sections():
        parts += [f"## {heading}\n", *map(_command, commands)]
    return "\n".join(parts)


def _codes() -> str:
    return _table(("code", "means"), ((f"{code}", meaning) for code, meaning in EXIT_CODES.items()))


def _settings() -> str:
    rows = (
        (f"`{one.name}`", one.meaning, f"`{one.option}`", f"`{one.env}`", one.unless)
        for one in SETTINGS.values()
    )
    return _table(("setting", "is", "option", "environment", "default"), rows)


def _command(command: Described) -> str:
    return "\n".join([f"### `{command.name}`\n", *_body(command)])


def _body(command: Described) -> Iterator[str]:
    yield f"```text\n{command.name} {command.usage}\n```\n"
    if not command.text:
        yield f"{command.purpose}.\n"
    for part in command.text:
        yield f"```text\n{part.text}\n```\n" if part.is_laid_out else f"{_plain(part.text)}\n"
    if command.options:
        rows = ((f"`{names}`", _plain(" ".join(text.split()))) for names, text in command.options)
        yield _table(("option", "does"), rows) + "\n"
    if command.examples:
        yield "```text\n" + "\n".join(command.examples) + "\n```\n"


def _plain(text: str) -> str:
    """Text that Markdown takes as it stands."""
    for char in "*_<>":
        text = text.replace(char, f"\\{char}")
    return text


def _table(head: tuple[str, ...], rows: Iterator[tuple[str, ...]]) -> str:
    lines = [head, tuple("---" for _ in head), *rows]
    return "\n".join("| " + " | ".join(cell.replace("|", "\\|") for cell in line) + " |" for line in lines)


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
