"""`footlight slots`: what the controller holds."""

import click

from footlight.cli.options import hint, json_option, port_option, print_json


@click.command("slots")
@port_option
@json_option
def command(port: str | None, as_json: bool) -> None:
    """List the sequences on the controller, and how many slots are free.

    \b
    Example:
      footlight slots
    """
    from footlight.actions.list_slots import list_slots
    from footlight.views.controller import slot_lines, slots_dict

    slots = list_slots(port)
    if as_json:
        print_json(slots_dict(slots))
        return
    for line in slot_lines(slots):
        click.echo(line)
    hint("Empty one with 'footlight clear NUMBER'.")
