"""What it costs to ask for one number: a whole scalar command against a bare click hello-world process.

Both run with compiled modules at hand, as an installed tool does, whatever the shell that measures says.
"""

import os
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from tests.bench._timing import ratio

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
    ("camera", "time", "EV 12", "f/22", "--ei", "4"),
    ("mix", "peroxide", "10 % w/w", "1 L", "--stock", "30 % w/w"),
)
HELP_LIMIT = 1.5


def rows() -> list[tuple[str, float, float]]:
    """(name, ratio against hello-world, limit) for a few scalar commands."""
    with tempfile.TemporaryDirectory() as folder:
        hello = Path(folder) / "hello.py"
        hello.write_text(_HELLO, encoding="utf-8")
        bare = _python(folder, str(hello))
        help_ratio = ratio(_python(folder, "-c", _RUN, "--help"), bare, 11)
        return [("start of `--help` / hello-world", help_ratio, HELP_LIMIT)] + [
            (
                f"start of `{_name(words)}` / hello-world",
                ratio(_python(folder, "-c", _RUN, *words), bare, 11),
                LIMIT,
            )
            for words in _COMMANDS
        ]


def _name(words: tuple[str, ...]) -> str:
    return " ".join(words[: 3 if words[1] == "strip" else 2])


def _python(folder: str, *words: str) -> Callable[[], object]:
    """A Python process whose compiled modules are kept in `folder`."""
    env = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    env["PYTHONPYCACHEPREFIX"] = folder
    command = [sys.executable, *words]
    return lambda: subprocess.run(command, check=True, env=env, stdout=subprocess.DEVNULL)
