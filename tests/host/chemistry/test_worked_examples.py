"""The pages on camera and chemistry: arithmetic by hand is right, the tool says the same, tables are true."""

import math
import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from footlight.chemistry.capacity import TRADE
from footlight.chemistry.hazards import hazards_for
from footlight.cli.main import group

DOCS = Path(__file__).parents[3] / "docs"
TEXT = (DOCS / "worked-examples-camera-chemistry.md").read_text(encoding="utf-8")
MATHS = {name: getattr(math, name) for name in ("sqrt", "log", "log2")}
BY_HAND = [
    tuple(part.strip() for part in line.split("  # "))
    for block in re.findall(r"```python\n(.*?)```", TEXT, flags=re.DOTALL)
    for line in block.splitlines()
]
ASKED = re.findall(r"```sh\nfootlight (.*?)\n```\n\n```text\n(.*?)```", TEXT, flags=re.DOTALL)


def said(command: str) -> str:
    result = CliRunner().invoke(group, shlex.split(command), catch_exceptions=False)
    assert result.exit_code == 0, result.output
    return " ".join(result.stdout.split())


def test_the_page_has_its_examples():
    assert len(re.findall(r"^## \d", TEXT, flags=re.MULTILINE)) >= 5
    assert len(ASKED) == TEXT.count("```sh") >= 6
    assert len(BY_HAND) > 20


@pytest.mark.parametrize(("sum_", "result"), BY_HAND)
def test_the_arithmetic_by_hand(sum_, result):
    decimals = len(result.partition(".")[2])
    assert abs(eval(sum_, dict(MATHS)) - float(result)) <= 0.51 * 10**-decimals


@pytest.mark.parametrize(("command", "expected"), ASKED)
def test_the_tool_says_the_same(command, expected):
    told = said(command)
    for line in expected.strip().splitlines():
        assert " ".join(line.split()) in told


@pytest.mark.parametrize(("page", "group_name"), [("camera.md", "camera"), ("chemistry.md", "mix")])
def test_the_pages_name_every_command_and_their_own_run(page, group_name, tmp_path, monkeypatch):
    text = (DOCS / page).read_text(encoding="utf-8")
    module = __import__(f"footlight.cli.{group_name}", fromlist=["ROWS"])
    assert [name for name in module.ROWS if f"{group_name} {name}" not in text] == []
    for number, block in enumerate(re.findall(r"```toml\n# (\S+)\n(.*?)```", text, flags=re.DOTALL)):
        (tmp_path / block[0]).write_text(block[1], encoding="utf-8")
        assert number < 5
    monkeypatch.chdir(tmp_path)
    commands = [
        line for block in re.findall(r"```sh\n(.*?)```", text, flags=re.DOTALL) for line in block.splitlines()
    ]
    assert commands
    for line in commands:
        assert said(line.removeprefix("footlight ").partition(" > ")[0])


@pytest.mark.parametrize("page", ["camera.md", "chemistry.md"])
def test_the_python_of_the_pages_runs(page):
    blocks = re.findall(r"```python\n(.*?)```", (DOCS / page).read_text(encoding="utf-8"), flags=re.DOTALL)
    assert blocks
    for code in blocks:
        exec(compile(code, page, "exec"), {})


# The subjects that the safety part must not lose.
SUBJECTS = (
    "goggles", "face shield", "gloves", "sealed", "vented", "air", "acetone", "chlorine", "sulphur dioxide",
    "silver", "1272/2008", "under revision", "2019/1148", "12 % w/w", "local rules", "safety data sheet",
    "eye", "children", "safety.md",
)  # fmt: skip


@pytest.mark.parametrize("subject", SUBJECTS)
def test_the_safety_part_speaks_of(subject):
    assert subject.lower() in (DOCS / "chemistry.md").read_text(encoding="utf-8").lower()


def rows_of(page: str, first: str) -> list[list[str]]:
    """The cells of the table whose head begins with `first`."""
    table = (DOCS / page).read_text(encoding="utf-8").partition(f"| {first} |")[2].partition("\n\n")[0]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in table.splitlines()[2:]]


def test_the_capacities_of_the_page_are_the_ones_used():
    told = {row[0]: row[1:] for row in rows_of("chemistry.md", "bath")}
    used = {
        kind: [f"{a:g} to {b:g}" for a, b in (limits.sheets_per_l, limits.tray_h)]
        for kind, limits in TRADE.items()
    }
    assert told == used


def codes_at(percent_ww: float) -> dict[str, str]:
    return {said.hazard: said.code for said in hazards_for("hydrogen peroxide", percent_ww).statements}


def test_the_limits_of_the_page_are_the_ones_used():
    rows = rows_of("chemistry.md", "from")
    assert len(rows) == 7
    for band, classes, statements in rows:
        least, *below = (float(number) for number in band.split(", below "))
        for name in classes.split("; "):
            assert codes_at(least)[name] in statements
            assert name not in codes_at(least - 0.01)
            if below:
                assert name in codes_at(below[0] - 0.01)
                assert name not in codes_at(below[0])
