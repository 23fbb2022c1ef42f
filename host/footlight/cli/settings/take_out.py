"""`footlight settings unset`"""

import click

from footlight.cli.options import json_option, print_json


@click.command("unset")
@click.argument("key")
@json_option
def command(key: str, as_json: bool) -> None:
    """Take KEY out of the settings file; its default holds again.

    \b
    Example:
      footlight settings unset port
    """
    from footlight import settings

    was_there = settings.take_out(key)
    if as_json:
        print_json({"file": str(settings.path()), "name": key, "was_there": was_there})
    elif key in settings.SETTINGS:
        before = "is no longer set" if was_there else "was not set"
        click.echo(f"{key} {before}; its default holds: {settings.SETTINGS[key].unless}")
    else:
        click.echo(f"{key} is gone; no setting has that name")
