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

from footlight import examples

LIMIT = 2.0
TIME_LIMIT = 1.6
PLAN_LIMIT = 2.5
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
HELP_LIMIT = 1.2
_LIMITS = {("light", "time"): TIME_LIMIT}


def rows() -> list[tuple[str, float, float]]:
    """(name, ratio against hello-world, limit) for a few scalar commands."""
    with tempfile.TemporaryDirectory() as folder:
        hello = Path(folder) / "hello.py"
        hello.write_text(_HELLO, encoding="utf-8")
        bare = _python(folder, str(hello))
        help_ratio = ratio(_python(folder, "-c", _RUN, "--help"), bare, 11)
        return [
            ("start of `--help` / hello-world", help_ratio, HELP_LIMIT),
            *(_row(folder, bare, words, _LIMITS.get(words[:2], LIMIT)) for words in _COMMANDS),
            *(_row(folder, bare, (name, _example(folder)), PLAN_LIMIT) for name in ("plan", "ready")),
        ]


def _row(
    folder: str, bare: Callable[[], object], words: tuple[str, ...], limit: float
) -> tuple[str, float, float]:
    measured = ratio(_python(folder, "-c", _RUN, *words), bare, 11)
    return f"start of `{_name(words)}` / hello-world", measured, limit


def _example(folder: str) -> str:
    """A sequence and its light setups, in a folder where there is no notebook."""
    for name in ("reversal-print.toml", examples.SETUPS):
        (Path(folder) / name).write_text(examples.text(name), encoding="utf-8")
    return f"{Path(folder) / 'reversal-print.toml'}"


def _name(words: tuple[str, ...]) -> str:
    if words[0] in ("plan", "ready"):
        return words[0]
    return " ".join(words[: 3 if words[1] == "strip" else 2])


def _python(folder: str, *words: str) -> Callable[[], object]:
    """A Python process whose compiled modules are kept in `folder`."""
    env = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    env |= {"PYTHONPYCACHEPREFIX": folder, "HOME": folder}
    command = [sys.executable, *words]
    return lambda: subprocess.run(command, check=True, env=env, stdout=subprocess.DEVNULL)
