"""`footlight new`"""

from pathlib import Path

import click

from footlight import examples
from footlight.errors import InputError


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
    _write(target, examples.text(f"{example}.toml"))
    click.echo(f"{target}: {examples.NAMES[example]}")
    setups = target.parent / examples.SETUPS
    if setups.exists():
        click.echo(f"{setups}: was there already, left as it is; the sequence uses its light setups")
    else:
        _write(setups, examples.text(examples.SETUPS))
        click.echo(f"{setups}: lamps and light setups, all invented: put in your own")
    click.echo(f"Next: footlight plan {target}")


def _write(path: Path, text: str) -> None:
    try:
        with path.open("x", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
    except FileExistsError:
        raise InputError(f"{path}: is there already; give another name, or move it away first") from None
    except OSError as error:
        raise InputError(
            f"{path}: cannot be written ({(error.strerror or 'no reason given').lower()})"
        ) from None
