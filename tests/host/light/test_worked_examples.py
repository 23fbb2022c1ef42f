"""The worked examples about light: the arithmetic by hand is right, and the tool says the same."""

import math
import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from footlight.cli.main import group

PAGE = Path(__file__).parents[3] / "docs" / "worked-examples-light.md"
TEXT = PAGE.read_text(encoding="utf-8")
MATHS = {name: getattr(math, name) for name in ("sqrt", "log", "log2", "cos", "atan", "hypot")}

BY_HAND = [
    tuple(part.strip() for part in line.split("  # "))
    for block in re.findall(r"```python\n(.*?)```", TEXT, flags=re.DOTALL)
    for line in block.splitlines()
]
ASKED = re.findall(r"```sh\nfootlight (.*?)\n```\n\n```text\n(.*?)```", TEXT, flags=re.DOTALL)


def test_the_page_has_its_examples():
    assert len(re.findall(r"^## \d", TEXT, flags=re.MULTILINE)) >= 6
    assert len(ASKED) == TEXT.count("```sh")
    assert len(BY_HAND) > 25


@pytest.mark.parametrize(("sum_", "result"), BY_HAND)
def test_the_arithmetic_by_hand(sum_, result):
    decimals = len(result.partition(".")[2])
    assert abs(eval(sum_, dict(MATHS)) - float(result)) <= 0.51 * 10**-decimals


@pytest.mark.parametrize(("command", "expected"), ASKED)
def test_the_tool_says_the_same(command, expected):
    result = CliRunner().invoke(group, shlex.split(command), catch_exceptions=False)
    assert result.exit_code == 0
    said = [" ".join(line.split()) for line in result.stdout.splitlines()]
    for line in expected.strip().splitlines():
        wanted = " ".join(line.split())
        assert any(wanted in one for one in said), f"'{wanted}' is not in {said}"


LIGHT_PAGE = (PAGE.parent / "light.md").read_text(encoding="utf-8")


def test_the_python_of_the_page_on_light_runs():
    (code,) = re.findall(r"```python\n(.*?)```", LIGHT_PAGE, flags=re.DOTALL)
    exec(compile(code, "light.md", "exec"), {})


def test_the_page_on_light_names_every_command():
    from footlight.cli.light import ROWS

    assert [name for name in ROWS if f"`{name}" not in LIGHT_PAGE and f"light {name}" not in LIGHT_PAGE] == []
