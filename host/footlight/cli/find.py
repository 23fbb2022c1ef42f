"""`footlight find`: which controllers are plugged in."""

import click

from footlight.cli.options import hint, json_option, print_json


@click.command("find")
@click.argument("ports", nargs=-1)
@json_option
def command(ports: tuple[str, ...], as_json: bool) -> None:
    """List the controllers that are plugged in, and what each other likely port turned out to be.

    Only ports whose USB ids are those of a controller's board are spoken to, and the one that is set in the
    environment or the settings. Name PORTS to try those instead.

    \b
    Example:
      footlight find
      footlight find socket://localhost:7700
    """
    from footlight.actions.find_controllers import find_controllers, refuse_none
    from footlight.views.controller import look_dict, look_line

    looks = find_controllers(ports)
    if as_json:
        print_json([look_dict(look) for look in looks])
    else:
        for look in looks:
            click.echo(look_line(look))
    refuse_none(looks)
    hint("Name one with --port, or set FOOTLIGHT_PORT.")
