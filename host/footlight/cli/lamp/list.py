"""`footlight lamp list`"""

import click

from footlight.cli.options import json_option, port_option, print_json, terminal_width


@click.command("list")
@port_option
@json_option
def command(port: str | None, as_json: bool) -> None:
    """What the light sensor reads, which lamps it knows, and how sure a light is.

    \b
    Example:
      footlight lamp list
    """
    from footlight.actions.know_lamps import list_lamps
    from footlight.views.lamps import lamp_lines, lamps_dict

    reply = list_lamps(port)
    if as_json:
        print_json(lamps_dict(reply))
        return
    click.echo("\n".join(lamp_lines(reply, terminal_width())))
