"""A command as it is typed, in this process: its output, its help's examples, its one line for bad input."""

import re
import shlex
from collections.abc import Sequence

import click
import pytest
from click.testing import CliRunner

from footlight.errors import FootlightError


def asked(command: click.Command, line: str | Sequence[str]) -> str:
    """What it printed; whatever it raised is raised here."""
    words = shlex.split(line) if isinstance(line, str) else list(line)
    result = CliRunner().invoke(command, words)
    if result.exception:
        raise result.exception
    assert result.exit_code == 0
    return result.stdout


def examples(command: click.Command, name: str, typed: str) -> list[str]:
    """The lines of a subcommand's help that begin with `typed`, without it and without what is piped on."""
    assert isinstance(command, click.Group)
    found = command.get_command(click.Context(command), name)
    assert found is not None
    return re.findall(rf"^\s*{typed} ([^>\n]+)", found.help or "", flags=re.MULTILINE)


def refused(command: click.Command, line: str | Sequence[str]) -> str:
    """The one line that says what was wrong, with an exit code that a script sees."""
    with pytest.raises(FootlightError) as caught:
        asked(command, line)
    assert "\n" not in str(caught.value)
    assert caught.value.exit_code != 0
    return str(caught.value)
