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
    from footlight.errors import InputError
    from footlight.link import find, slots

    channel = find.connect(port)
    count = slots.limits(channel).slots
    if slot > count:
        raise InputError(f"slot {slot}: the controller has slots 1 to {count}; 'footlight slots' lists them")
    title = {known.number: known.title for known in slots.in_use(channel)}.get(slot)
    if title is None:
        raise InputError(f"slot {slot} is empty already; 'footlight slots' lists what is there")
    slots.clear(channel, slot)
    if as_json:
        print_json({"slot": slot, "title": title})
    else:
        click.echo(f"slot {slot} is empty now; it held {title or 'something damaged'}")
