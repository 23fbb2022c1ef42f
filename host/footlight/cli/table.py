"""A click group whose commands are a table, each imported only when it is called."""

import importlib

import click

# name -> (module that holds a click command called `command`, one line of help)
Rows = dict[str, tuple[str, str]]


class Table(click.Group):
    """A group over `rows`; its help is written from the table and imports no command."""

    def __init__(self, *args, rows: Rows, package: str, **more) -> None:
        super().__init__(*args, **more)
        self._rows, self._package = rows, package

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(self._rows)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in self._rows:
            return None
        return importlib.import_module(f"{self._package}.{self._rows[cmd_name][0]}").command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(name, text) for name, (_, text) in self._rows.items()])
