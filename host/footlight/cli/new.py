"""`footlight new`"""

from pathlib import Path

import click

from footlight import examples, whole_file

_OTHERWISE = "give another name, or move it away first"


@click.command
@click.argument("example", type=click.Choice(list(examples.NAMES)), required=False, metavar="[EXAMPLE]")
@click.argument("file", type=click.Path(path_type=Path), required=False)
def command(example: str | None, file: Path | None) -> None:
    """Write a sequence file to start from.

    EXAMPLE is one of the three complete sequences; without it they are listed. FILE is where to write it, or
    its own name in this folder. Its light setups are written beside it, unless there are some already.
    Nothing is ever overwritten.

    \b
        footlight new
        footlight new reversal-print
        footlight new pre-flash flash-8x10.toml
    """
    if example is None:
        for name, meaning in examples.NAMES.items():
            click.echo(f"{name:<24}{meaning}")
        return
    target = file or Path(f"{example}.toml")
    whole_file.write(target, examples.text(f"{example}.toml"), _OTHERWISE)
    click.echo(f"{target}: {examples.NAMES[example]}")
    setups = target.parent / examples.SETUPS
    if setups.exists():
        click.echo(f"{setups}: was there already, left as it is; the sequence uses its light setups")
    else:
        whole_file.write(setups, examples.text(examples.SETUPS), _OTHERWISE)
        click.echo(f"{setups}: lamps and light setups, all invented: put in your own")
    click.echo(f"Next: footlight plan {target}")
