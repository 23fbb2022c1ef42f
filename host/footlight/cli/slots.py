"""`footlight slots`: what the controller holds."""

import click

from footlight.cli.options import hint, json_option, port_option, print_json
from footlight.views.table import columns


@click.command("slots")
@port_option
@json_option
def command(port: str | None, as_json: bool) -> None:
    """List the sequences on the controller, and how many slots are free.

    \b
    Example:
      footlight slots
    """
    from footlight.link import find, slots

    channel = find.connect(port)
    count = slots.limits(channel).slots
    used = slots.in_use(channel)
    if as_json:
        listed = [{"slot": slot.number, "title": slot.title or None, "sha": slot.sha} for slot in used]
        print_json({"slots": count, "used": listed})
        return
    rows = [[f"{slot.number}", slot.title or "(damaged)", slot.sha[:8]] for slot in used]
    for line in columns(["slot", "title", "hash"], rows):
        click.echo(line)
    click.echo(f"{count - len(used)} of {count} slots free")
    hint("Empty one with 'footlight clear NUMBER'.")
