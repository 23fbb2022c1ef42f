"""Every command of `footlight light`: its examples run, its JSON is JSON, its errors are one line."""

import json
import re
import shlex
import subprocess
import sys
from collections.abc import Iterator

import click
import pytest
from click.testing import CliRunner
from hypothesis import example, given
from hypothesis import strategies as st
from tests.host import typed

from footlight.cli.light import command as light
from footlight.cli.table import Table
from footlight.errors import FootlightError, InputError
from footlight.written import light as written

SETUPS_FILE = """
[lamp.enlarger]
show = "ENL"
cap = "60 s"
ten_minute_limit = "9:00"

[setup.second]
lamp = "enlarger"
lens = "80 mm"
focal_length = "80 mm"
stop = "f/11"
height = "600 mm"
dead_time = "50 ms"
reference = "6.0 s at 620 mm f/11"
departure = 0.9

[setup.new]
lamp = "enlarger"
height = "600 mm"
"""


def commands(group: Table, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], click.Command]]:
    """Every command below a group, with the words that call it."""
    ctx = click.Context(group)
    for name in group.list_commands(ctx):
        found = group.get_command(ctx, name)
        assert found is not None
        if isinstance(found, Table):
            yield from commands(found, (*path, name))
        else:
            yield (*path, name), found


assert isinstance(light, Table)
ALL = dict(commands(light))


def examples(found: click.Command) -> list[str]:
    """The command lines of a help text, joined where they go on."""
    text = (found.help or "").replace("\\\n", " ")
    return re.findall(r"^\s*footlight light (.+)$", text, flags=re.MULTILINE)


EXAMPLES = [
    pytest.param(words, line, id=line[:60]) for words, found in ALL.items() for line in examples(found)
]


def asked(line: str, *more: str) -> str:
    return typed.asked(light, [*shlex.split(line), *more])


@pytest.fixture
def darkroom(tmp_path, monkeypatch):
    """A folder with a light-setups file, and nothing else."""
    (tmp_path / "light-setups.toml").write_text(SETUPS_FILE, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_every_command_has_help_and_an_example():
    assert len(ALL) >= 25
    for words, found in ALL.items():
        assert examples(found), words
        assert all(line.startswith(" ".join(words)) for line in examples(found)), words


@pytest.mark.parametrize(("words", "line"), EXAMPLES)
def test_the_examples_of_the_help_run(darkroom, words, line):
    assert asked(line).strip()


@pytest.mark.parametrize(("words", "line"), EXAMPLES)
def test_the_examples_give_json(darkroom, words, line):
    assert json.loads(asked(line, "--json"))


def test_the_table_of_every_group_is_what_its_commands_say():
    result = CliRunner().invoke(light, ["strip", "--help"])
    assert "flash-bands" in result.stdout


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ('time "6 s, 620, f/11" "800 mm"', "FOUND: '620' has no unit"),
        ('time "620 mm, f/11" "800 mm"', "has no time"),
        ('time "6 s, f/11" "800 mm"', "has no height"),
        ('time "6 s, 620 mm, f/11" "8 s"', "only what changes"),
        ('time "6 s, 620 mm, f/11" "0 mm"', "out of range"),
        ('time "6 s, 620 mm, f/0.4" "800 mm"', "f/0.5 to f/1024"),
        ('time "6 s, 620 mm, 700 mm, f/11" "800 mm"', "write each once"),
        ('time "6 s, 620 mm" "f/8"', "a bare lamp"),
        ('time "6 s, , 620 mm" "f/8"', "empty part"),
        ('time "6 s, 620 mm, lens 80 mm" "800 mm"', "a lens but no stop"),
        ('time "6 s, 620 mm, f/11" "filter yellow"', "bridging strip"),
        ('time "6 s, 620 mm, f/11" "800 mm" --p 3', "--p"),
        ('height "6 s, 620 mm, f/11" --for "9999 s"', "change the stop instead"),
        ('time "6 s, 620 mm, f/11" "800 mm" --off "weight 5 g"', "write one of height, scale, stop"),
        ('time "setup new" "800 mm"', "no reference exposure"),
        ('time "setup third" "800 mm"', "no light setup 'third'"),
        ('flash decide "0 s, 2 D, 2 D, 2 D" "1 s, 2 D, 2 D, 1 D" --new "700 mm"', "--new needs --at"),
        ('given "6 s, 620 mm, f/11" "800 mm" "0 s"', "more than zero"),
        ('even 8x10 "500"', "HEIGHT: '500' has no unit"),
        ('even 8x10 "500 mm" --within "0"', "more than zero"),
        ('even 8x10 "500 mm" --picture x.txt', "must end in"),
        ('cover 8x10 "60 mm" --carrier "57 x 57 mm" --lens "80 mm"', "not beyond the focal length"),
        ('datum "400 mm, 48 lx" "800 mm, 4 s"', "both need"),
        ('datum "48 lx" "800 mm, 4 lx"', "reading of the scale"),
        ('dose "6 s"', "no dose"),
        ('dose "72 lx s" "8 s"', "no meter reading"),
        ('dead-time "10 s" "1.05 s"', "how many and how long"),
        ('relay --mains "400 Hz"', "45 to 65"),
        ('mains "23 V"', "within 15 %"),
        ('warm-up "0 s, 9 lx" "1 s"', "reading 2"),
        ('long "0 stops, 4 s"', "at least two"),
        ('fog "0 s, 0.4 D" "x, 0.4 D"', "band 2"),
        ('flash threshold "0 s, 0.05 D" "1 s, 0.9 D" "2 s, 1.0 D"', "smaller centre"),
        ('flash gain "0 stops, 2 D"', "both scales"),
        ('strip second "6 s"', "no height"),
        ('strip second "6 s" --setup none', "no light setup 'none'"),
        ('strip second "600 mm, f/11"', "has no time"),
        ('strip second "6 s, 600 mm, f/11" --steps 6', "no centre"),
        ('strip second "6 s, 600 mm, f/11" --toml x.toml', "--toml needs --setup"),
        ('strip second "0.2 s, 600 mm, f/11"', "shorter than this relay can do"),
        ('strip fog "2 s, 600 mm, f/11" --stage before --wait "5 min" --wait "1 min"', "fog test"),
    ],
)
def test_bad_input_is_one_clear_line(darkroom, line, says):
    assert says in typed.refused(light, line)


def test_an_exposure_of_a_named_setup(darkroom):
    found = json.loads(asked('time "setup second" "800 mm"', "--json"))["answers"][1]
    # The setup's measured exponent 0.9 is used: 6·(800/620)^(2/0.9)
    assert found["seconds"] == pytest.approx(6 * (800 / 620) ** (2 / 0.9), abs=1e-4)


def test_a_tolerance_of_ones_own(darkroom):
    usual, better = (
        json.loads(asked('time "6 s, 620 mm, f/11" "800 mm"', "--json", *more))["answers"][1]["uncertainty"]
        for more in ([], ["--off", "height 5 mm"])
    )
    begins = [budget["terms"][0]["stops"] for budget in (usual, better)]
    assert begins[1] == pytest.approx(begins[0] / 2, abs=1e-4)


def test_a_strip_written_from_a_named_setup(darkroom):
    asked('strip second "6 s" --setup second --step "1/3 stop" --blade "30 mm" --toml strip.toml')
    from footlight import sequence

    made = sequence.compile(sequence.load(darkroom / "strip.toml"))
    assert len(made.arithmetic) == 8


@pytest.mark.parametrize(
    ("line", "lights"),
    [
        ('strip crossed "3 s" --white "3 s" --setup second --blade "30 mm"', 11),
        ('strip fog "2 s" --setup second --stage before', 2),
        ('strip fog "2 s" --setup second --stage after-bleach', 0),
        ('strip dead-time "0.5 s" --setup second', 17),
        ('strip flash "2 s" --setup second', 7),
    ],
)
def test_every_ready_made_strip_compiles(darkroom, line, lights):
    from footlight import sequence

    asked(f"{line} --toml strip.toml")
    assert len(sequence.compile(sequence.load(darkroom / "strip.toml")).arithmetic) == lights


def test_a_smaller_sheet_stays_where_the_lamp_is(darkroom):
    said = asked('bigger "6 s, 620 mm, f/11" 8x10 4x5')
    assert "the exposure stays" in said
    assert "times the area" not in said


def test_a_file_that_cannot_be_written_is_said(darkroom):
    with pytest.raises(FootlightError, match="cannot be written"):
        asked('strip second "6 s" --setup second --toml none/strip.toml')
    with pytest.raises(FootlightError, match="cannot be written"):
        asked('even 8x10 "500 mm" --picture none/even.png')


@pytest.mark.parametrize("source", ["lens", "bare", "'60 mm'"])
def test_the_picture_is_a_picture(darkroom, source):
    pytest.importorskip("matplotlib")
    from PIL import Image

    asked(f'even 8x10 "500 mm" --source {source} --picture even.png')
    with Image.open(darkroom / "even.png") as picture:
        grey = picture.convert("L")
        middle = grey.getpixel((picture.width // 2 + 25, picture.height // 2 + 25))
        assert picture.width > 600
    # The middle of the sheet is the brightest of it, and contours are drawn in black.
    assert isinstance(middle, int)
    assert middle > 245
    assert min(grey.tobytes()) < 40


@pytest.mark.parametrize("line", ['light time "6 s, 620 mm, f/11" "800 mm"', 'light even 8x10 "500 mm"'])
def test_scalar_commands_load_nothing_heavy(line):
    import shlex

    code = (
        "import sys\nfrom footlight.cli.main import group\n"
        f"group({shlex.split(line)!r}, standalone_mode=False)\n"
        "heavy = {'numpy', 'matplotlib', 'scipy', 'PIL', 'rich', 'serial'} & set(sys.modules)\n"
        "sys.exit(f'loaded {heavy}' if heavy else 0)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr


def test_errors_of_the_whole_program_go_to_stderr_with_a_code():
    code = "from footlight.cli.main import run; run()"
    done = subprocess.run(
        [sys.executable, "-c", code, "light", "time", "6", "800 mm"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr.startswith("footlight: FOUND: '6' has no unit")
    assert done.stderr.count("\n") == 1


WORDS = st.sampled_from(
    ["6 s", "620 mm", "f/11", "lens 80 mm", "nd 0.3", "nd x", "filter", "lamp ,", "source 6 mm", "0 mm"]
)
NEARLY = st.lists(WORDS | st.text(max_size=8), max_size=5).map(", ".join)


@given(NEARLY, NEARLY)
@example("nd nan, 6 s, 620 mm, f/11", "nd 9")
@example("0\n0", "")
def test_whatever_is_written_is_read_or_refused(found, new):
    try:
        _, at = written.exposure(found, "FOUND")
        written.changed(at, new, "NEW")
    except InputError as error:
        assert str(error)


def test_a_picture_without_matplotlib_says_what_to_install(darkroom, monkeypatch):
    monkeypatch.setitem(sys.modules, "matplotlib.figure", None)
    with pytest.raises(FootlightError, match=r"pip install 'footlight\[pictures\]'"):
        asked('even 8x10 "500 mm" --picture even.png')
