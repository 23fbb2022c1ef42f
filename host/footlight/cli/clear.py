"""`footlight clear`: empty a slot of the controller."""

import click

from footlight.cli.options import json_option, port_option, print_json


@click.command("clear")
@click.argument("slot", type=click.IntRange(1))
@port_option
@json_option
def command(slot: int, port: str | None, as_json: bool) -> None:
    """Take the sequence out of SLOT. Its file and its records stay; it can be sent again.

    \b
    Example:
      footlight clear 3
    """
    from footlight.actions.clear_slot import clear_slot

    title = clear_slot(slot, port)
    if as_json:
        print_json({"slot": slot, "title": title})
    else:
        click.echo(f"slot {slot} is empty now; it held {title or 'something damaged'}")
