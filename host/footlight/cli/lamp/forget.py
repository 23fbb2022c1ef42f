"""`footlight lamp forget`"""

import click

from footlight.cli.options import port_option


@click.command("forget")
@click.argument("lamp")
@port_option
def command(lamp: str, port: str | None) -> None:
    """Know a LAMP no more, so that its lights go by seconds: a bulb was changed, the sensor moved.

    \b
    Example:
      footlight lamp forget HEAD
    """
    from footlight.actions.know_lamps import forget_lamp

    forget_lamp(lamp, port)
    click.echo(f"{lamp} is known no more: its lights go by seconds until it is learnt again")
