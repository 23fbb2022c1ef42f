"""The two ways of printing that most commands share: text with notes, and JSON."""

from collections.abc import Iterable, Sequence

import click

as_json = click.option("--json", "as_json", is_flag=True, help="Print JSON, units in the keys.")


def say(lines: Iterable[str], notes: Iterable[str] = ()) -> None:
    """Print lines, then each note behind a mark."""
    for line in lines:
        click.echo(line)
    for note in notes:
        click.echo(f"! {note}")


def say_json(value: object) -> None:
    """Print JSON."""
    import json

    click.echo(json.dumps(value, ensure_ascii=False, indent=2))


def table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> list[str]:
    """A text table, right-aligned but for its first column."""
    cells = [list(head), *(list(row) for row in rows)]
    widths = [max(len(row[column]) for row in cells) for column in range(len(head))]
    return [
        "  ".join(_cell(text, widths, column) for column, text in enumerate(row)).rstrip() for row in cells
    ]


def _cell(text: str, widths: list[int], column: int) -> str:
    return text.ljust(widths[column]) if column == 0 else text.rjust(widths[column])
