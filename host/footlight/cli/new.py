"""`footlight new`"""

from pathlib import Path

import click

from footlight import examples


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
    from footlight.actions.write_example import write_example

    if example is None:
        for name, meaning in examples.NAMES.items():
            click.echo(f"{name:<24}{meaning}")
        return
    written = write_example(example, file)
    click.echo(f"{written.file}: {examples.NAMES[example]}")
    if written.setups_kept:
        click.echo(f"{written.setups}: was there already, left as it is; the sequence uses its light setups")
    else:
        click.echo(f"{written.setups}: lamps and light setups, all invented: put in your own")
    click.echo(f"Next: footlight plan {written.file}")
