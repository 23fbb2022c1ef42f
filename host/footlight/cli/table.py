"""A click group whose commands are a table, each imported only when it is called."""

import importlib
from typing import Any

import click

from footlight.errors import FootlightError, spoken

_COMMAND = "footlight.command"  # the command that was called, in a context's meta
QUIET = "footlight.quiet"  # in a context's meta, which the contexts of a command line share


def _be_quiet(ctx: click.Context, param: click.Parameter, value: bool) -> None:
    if value:
        ctx.meta[QUIET] = True


# Every command of every table has it, so that it counts wherever it is typed.
QUIET_OPTION = click.Option(
    ["--quiet", "-q"],
    is_flag=True,
    expose_value=False,
    callback=_be_quiet,
    help="No hints and no progress: results and errors alone.",
)

# name -> (module that holds a click command called `command`, one line of help)
Rows = dict[str, tuple[str, str]]


class Table(click.Group):
    """A group over `rows`, or over `sections` of rows by heading; its help is written from them and imports
    no command."""

    def __init__(
        self, *args, rows: Rows | None = None, sections: dict[str, Rows] | None = None, package: str, **more
    ) -> None:
        super().__init__(*args, **more)
        self.sections = sections or {"Commands": rows or {}}
        self.rows = {name: row for part in self.sections.values() for name, row in part.items()}
        self._package = package

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(self.rows)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in self.rows:
            return None
        found: click.Command = importlib.import_module(f"{self._package}.{self.rows[cmd_name][0]}").command
        if QUIET_OPTION not in found.params:
            found.params.append(QUIET_OPTION)
        ctx.meta[_COMMAND] = found
        return found

    def invoke(self, ctx: click.Context) -> Any:
        """Call the command; an error from below then says options and commands for fields and acts."""
        try:
            return super().invoke(ctx)
        except FootlightError as error:
            error.told_as = told(error.text)
            raise

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        for heading, rows in self.sections.items():
            with formatter.section(heading):
                formatter.write_dl([(name, text) for name, (_, text) in rows.items()])


def told(text: str) -> str:
    """A text from below, its marks said as options of the command that was called, and as commands."""
    ctx = click.get_current_context(silent=True)
    command = ctx.meta.get(_COMMAND) if ctx else None
    return spoken(text, lambda name: _option(command, name), lambda name: f"'footlight {name}'")


def _option(command: click.Command | None, name: str) -> str:
    """A field as it is typed at this command: `--height`, `NUMBER`; its bare name where it is no option."""
    for param in command.params if command else []:
        if param.name is not None and name in (param.name, param.name.strip("_")):
            is_option = isinstance(param, click.Option)
            return _longest(param.opts) if is_option else param.human_readable_name.strip("[].")
    return f"--{name.replace('_', '-')}"


def _longest(spellings: list[str]) -> str:
    return max(spellings, key=len)
