"""`footlight settings set`"""

import click

from footlight.cli.options import json_option, print_json


@click.command("set")
@click.argument("key")
@click.argument("value")
@json_option
def command(key: str, value: str, as_json: bool) -> None:
    """Set KEY to VALUE in the settings file, which is made if need be.

    The rest of the file, also its comments, stays as it is.

    \b
    Example:
      footlight settings set port /dev/ttyACM0
      footlight settings set quiet true
    """
    from footlight import settings

    held = settings.put(key, value)
    if as_json:
        print_json({"file": str(settings.path()), "name": held.setting.name, "value": held.value})
        return
    shown = str(held.value).lower() if isinstance(held.value, bool) else held.value
    click.echo(f"{held.setting.name} is {shown} now, in {settings.path()}")
