"""What it costs to ask for one number: a whole scalar command against a bare click hello-world process."""

import sys
import tempfile
from pathlib import Path

from tests.bench._timing import process, ratio

LIMIT = 2.0
_HELLO = """
import click

@click.command()
def hello():
    click.echo("hello")

hello()
"""
_RUN = "from footlight.cli.main import run; run()"
_COMMANDS = (
    ("light", "time", "6 s, 620 mm, f/11", "800 mm"),
    ("light", "even", "8x10", "500 mm", "--within", "0.1 stop"),
    ("light", "strip", "second", "6 s, 600 mm, f/11, lens 80 mm", "--blade", "30 mm"),
    ("light", "dose", "6 s, 12 lx", "8.5 lx", "--json"),
)


def rows() -> list[tuple[str, float, float]]:
    """(name, ratio against hello-world, limit) for a few scalar commands."""
    with tempfile.TemporaryDirectory() as folder:
        hello = Path(folder) / "hello.py"
        hello.write_text(_HELLO, encoding="utf-8")
        bare = process([sys.executable, str(hello)])
        return [
            (f"start of `{' '.join(words[:2])}` / hello-world", ratio(_asked(words), bare, turns=11), LIMIT)
            for words in _COMMANDS
        ]


def _asked(words: tuple[str, ...]):
    return process([sys.executable, "-c", _RUN, *words])
