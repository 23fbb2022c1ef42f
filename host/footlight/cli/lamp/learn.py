"""`footlight lamp learn`"""

import time

import click

from footlight.cli.options import json_option, port_option, print_json

_ASKS = {
    "dark": "lamp off, red light as it will be: the dark is read, two seconds",
    "light": "no paper out. At the pedal FOCUS, a long press, then a tap: the lamp burns. Leave it on",
    "stop": "press the pedal: the lamp goes off; then a long press: the set-up light is left",
}


@click.command("learn")
@click.argument("lamp")
@port_option
@json_option
def command(lamp: str, port: str | None, as_json: bool) -> None:
    """Learn a LAMP, by its name on the display: what its sensor reads dark and warm, how long warming takes.

    The lamp is lit at the pedal, as the set-up light; nothing here lights it. Learn it with the mains as it
    mostly is, and again after the bulb was changed or the sensor moved.

    \b
    Example:
      footlight lamp learn HEAD
    """
    from footlight.actions.learn_lamp import learn_lamp
    from footlight.views.lamps import lamp_dict, learnt_lines

    def ask(what: str) -> None:
        click.echo(_ASKS[what], err=as_json)

    learnt = learn_lamp(lamp, port, ask, time.sleep)
    if as_json:
        print_json(lamp_dict(learnt.lamp))
        return
    click.echo("\n".join(learnt_lines(learnt)))
