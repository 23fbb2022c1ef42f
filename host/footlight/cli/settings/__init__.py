"""`footlight settings`: what holds for every command, and where it is said."""

from typing import TYPE_CHECKING

import click

from footlight.cli.options import json_option, print_json
from footlight.cli.table import Rows, Table

if TYPE_CHECKING:
    from footlight.settings import Held

ROWS: Rows = {
    "set": ("put", "Set one"),
    "unset": ("take_out", "Leave one to its default again"),
}


@click.group(cls=Table, rows=ROWS, package="footlight.cli.settings", invoke_without_command=True)
@json_option
@click.pass_context
def command(ctx: click.Context, as_json: bool) -> None:
    """Show the settings: each value, and where it comes from.

    Option, then environment, then file, then default: the first of them that says something counts. The
    environment has each as FOOTLIGHT_ and its name, FOOTLIGHT_PORT for port. The file is TOML; on its first
    line is where it lies.

    \b
    Example:
      footlight settings
      footlight settings set notebook ~/prints/notebook.sqlite
      footlight settings unset notebook
    """
    if ctx.invoked_subcommand is not None:
        return
    from footlight import settings

    file = settings.path()
    held = [settings.held(name) for name in settings.SETTINGS]
    if as_json:
        print_json(
            {"file": str(file), "is_there": file.exists(), "settings": [_as_dict(one) for one in held]}
        )
        return
    click.echo(f"{file}{'' if file.exists() else ' (not there: nothing is set)'}")
    for one in held:
        source = f"environment, {one.setting.env}" if one.source == settings.ENVIRONMENT else one.source
        click.echo(f"{one.setting.name:<10}{_shown(one):<52}  {source}")


def _shown(held: "Held") -> str:
    if held.value is None:
        return _default(held.setting.name) or held.setting.unless
    return str(held.value).lower() if isinstance(held.value, bool) else held.value


def _as_dict(held: "Held") -> dict[str, object]:
    default = _default(held.setting.name) or held.setting.unless
    return {"name": held.setting.name, "value": held.value, "source": held.source, "default": default}


def _default(name: str) -> str:
    """Where a file lies if nothing is said, "" where that is no place."""
    from footlight.notebook.place import default_path

    places = {"notebook": default_path(), "bench": default_path().parent / "bench"}
    return str(places.get(name, ""))
