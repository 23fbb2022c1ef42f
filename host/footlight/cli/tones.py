"""`footlight tones`: what a scene will look like on a paper, before paper."""

from pathlib import Path

import click

from footlight.cli.options import json_option, print_json, say, terminal_width

_FILE = click.Path(path_type=Path)


@click.command("tones")
@click.argument("paper", type=_FILE)
@click.argument("scene", type=_FILE)
@json_option
def command(paper: Path, scene: Path, as_json: bool) -> None:
    """Each place's density and look in print, with doubt; for wanted tones, how to set the camera.

    PAPER is a file with the densities of one reversed sheet with steps, flashes alone, and prints with
    metered places, which move the curve. SCENE is a file with places and their spot readings, the
    plan, and wanted tones. Both are TOML; docs/tones.md has an example of each.

    \b
    Example:
      footlight tones pearl.toml garden.toml
      footlight tones pearl.toml garden.toml --json
    """
    from footlight.actions.predict_tones import predict_tones
    from footlight.views import tones as view
    from footlight.written import tones as written

    answer = predict_tones(written.read_paper(paper), written.read_scene(scene))
    if as_json:
        print_json(view.as_dict(answer))
        return
    say(view.lines(answer, terminal_width()))
