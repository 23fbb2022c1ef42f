"""What holds for every command alike: exit codes, --quiet, NO_COLOR, completion."""

import importlib
import json
import os
import pkgutil
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner
from tests.documents.mentions import every_command

import footlight
from footlight import errors
from footlight.actions import demonstrate
from footlight.bench.looks import Look
from footlight.cli import options
from footlight.cli.main import group

COMMAND = [sys.executable, "-c", "from footlight.cli.main import run; run()"]


def every_error() -> set[type[errors.FootlightError]]:
    for module in pkgutil.walk_packages(footlight.__path__, "footlight."):
        if ".box" not in module.name:
            importlib.import_module(module.name)
    found, waiting = set(), [errors.FootlightError]
    while waiting:
        below = waiting.pop().__subclasses__()
        found |= set(below)
        waiting += below
    return {error for error in found if error.__module__.startswith("footlight.")}


def test_every_error_ends_with_a_code_of_the_table():
    found = every_error()
    assert len(found) > 15
    assert {error.exit_code for error in found} <= set(errors.EXIT_CODES)


def test_errors_of_one_subject_have_one_code():
    """A script can tell them apart: no two rooms share a code, but link and boards two of them."""
    rooms: dict[int, set[str]] = {}
    for error in every_error():
        rooms.setdefault(error.exit_code, set()).add(error.__module__.split(".")[1])
    shared = {code: names for code, names in rooms.items() if code > 2 and len(names) > 1}
    assert shared in ({}, {3: {"link", "install"}, 4: {"link", "install"}})


def ended(*words: str, home: Path, stdin: str = "") -> subprocess.CompletedProcess[str]:
    env = {name: value for name, value in os.environ.items() if not name.startswith(("FOOTLIGHT_", "XDG_"))}
    return subprocess.run(
        [*COMMAND, *words],
        env=env | {"HOME": str(home)},
        cwd=home,
        capture_output=True,
        text=True,
        input=stdin,
        timeout=60,
        check=False,
    )


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("settings",), 0),
        (("--version",), 0),
        (("gather",), 2),
        (("plan",), 2),
        (("plan", "none.toml"), 2),
        (("light", "time", "6", "800 mm"), 2),
        (("settings", "set", "port"), 2),
        (("read", "strip", "none.tif", "--present", "8 s", "--centre", "8 s"), 2),
        (("find", "/dev/none"), 3),
        (("install", "--port", "/dev/none", "--quiet"), 5),
        (("slots", "--port", "/dev/none"), 5),
        (("restore", "none.json", "--notebook", "new.sqlite"), 7),
        (("undo",), 7),
        (("sheets",), 7),
        (("sheets", "--notebook", "."), 7),
    ],
)
def test_exit_codes(words: tuple[str, ...], code: int, tmp_path: Path):
    done = ended(*words, home=tmp_path)
    assert done.returncode == code, done.stderr
    if code:
        # `find` lists what it looked at; everything else says nothing there.
        assert done.stdout == "" or words[0] == "find"
        assert done.stderr.startswith("footlight: ") and done.stderr.count("\n") == 1


@pytest.mark.parametrize("words", [("bath",), ("light", "strip")])
def test_a_group_alone_shows_what_it_holds(words: tuple[str, ...], tmp_path: Path):
    done = ended(*words, home=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == ended(*words, "--help", home=tmp_path).stdout


def test_every_command_can_be_quiet():
    found = [path for path, command in every_command() if "quiet" not in {one.name for one in command.params}]
    assert found == []


def at_a_terminal(*words: str, home: Path, **env: str) -> str:
    """What a command says there beside its result."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("FOOTLIGHT_", "XDG_"))}
    ours, theirs = os.openpty()
    try:
        subprocess.run(
            [*COMMAND, *words],
            env=kept | {"HOME": str(home)} | env,
            stdout=subprocess.DEVNULL,
            stderr=theirs,
            timeout=60,
            check=True,
        )
        os.write(theirs, b".")
        return os.read(ours, 4096).decode()
    finally:
        os.close(ours)
        os.close(theirs)


@pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")
def test_quiet_keeps_hints_back(tmp_path: Path):
    rule = ("install", "--udev-rule")
    assert "udevadm" in at_a_terminal(*rule, home=tmp_path)
    assert at_a_terminal(*rule, "--quiet", home=tmp_path) == "."
    assert at_a_terminal("-q", *rule, home=tmp_path) == "."
    assert at_a_terminal(*rule, home=tmp_path, FOOTLIGHT_QUIET="1") == "."


def test_quiet_by_the_environment(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("FOOTLIGHT_QUIET", "yes")
    assert options.is_quiet()
    monkeypatch.setenv("FOOTLIGHT_QUIET", "no")
    assert not options.is_quiet()


LOOK = demonstrate.Processed([Look(0, "the display", [[True] * 32] * 8)])


@pytest.mark.parametrize(("value", "is_red"), [("", True), ("1", False)])
def test_no_color(value: str, is_red: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("NO_COLOR", value)
    monkeypatch.setattr(demonstrate, "demonstrate", lambda folder, tell, interpreter: tell(LOOK))
    result = CliRunner().invoke(group, ["demo", "--folder", str(tmp_path / "demo")], color=True)
    assert "the display" in result.output
    assert ("\x1b[31m" in result.output) is is_red


SHELLS = {
    "bash": ["bash", "--norc", "-c"],
    "zsh": ["zsh", "-f", "-c"],
    "fish": ["fish", "--no-config", "-c"],
}


@pytest.mark.parametrize("shell", SHELLS)
def test_the_script_of_a_shell_is_one(shell: str, tmp_path: Path):
    script = CliRunner().invoke(group, ["completion", shell, "--script"])
    assert script.exit_code == 0 and "_FOOTLIGHT_COMPLETE" in script.output
    assert "footlight completion" in CliRunner().invoke(group, ["completion", shell]).output
    if not shutil.which(shell):
        pytest.skip(f"{shell} is not installed here: its script is only looked at")
    file = tmp_path / "script"
    file.write_text(script.output, encoding="utf-8")
    checked = subprocess.run([shell, "-n", str(file)], capture_output=True, text=True, check=False)
    assert checked.returncode == 0, checked.stderr


ASKED = [
    ("footlight pl", {"plan"}),
    ("footlight mix pero", {"peroxide"}),
    ("footlight plan x.toml --jud", {"--judged"}),
    ("footlight plan x.toml --judged m", {"middle", "most"}),
    ("footlight settings set --js", {"--json"}),
]


@pytest.mark.parametrize(("line", "wanted"), ASKED, ids=lambda value: value if isinstance(value, str) else "")
@pytest.mark.parametrize("shell", SHELLS)
def test_what_a_shell_is_told(shell: str, line: str, wanted: set[str], tmp_path: Path):
    """What the scripts ask the command for, and what it answers, in the form of each shell."""
    words = line.split()
    asked = {"COMP_WORDS": line, "COMP_CWORD": words[-1] if shell == "fish" else str(len(words) - 1)}
    done = subprocess.run(
        COMMAND,
        env=os.environ | asked | {"_FOOTLIGHT_COMPLETE": f"{shell}_complete", "HOME": str(tmp_path)},
        capture_output=True,
        text=True,
        timeout=30,
        check=False,
    )
    lines = done.stdout.split("\n")
    told = set(lines[1::3]) if shell == "zsh" else {one.partition(",")[2].partition("\t")[0] for one in lines}
    assert wanted <= told, done.stdout + done.stderr


@pytest.mark.skipif(not shutil.which("bash"), reason="needs bash")
def test_completion_in_bash_itself(tmp_path: Path):
    """The script sourced by a real bash, and its function called as bash does."""
    (tmp_path / "footlight").write_text(f"#!/bin/sh\nexec '{sys.executable}' -c '{COMMAND[2]}' \"$@\"\n")
    (tmp_path / "footlight").chmod(0o755)
    script = (
        'eval "$(footlight completion bash --script)"; COMP_WORDS=(footlight mix pero); COMP_CWORD=2; '
        "_footlight_completion footlight pero mix; printf '%s\\n' \"${COMPREPLY[@]}\""
    )
    env = os.environ | {"PATH": f"{tmp_path}{os.pathsep}{os.environ['PATH']}", "HOME": str(tmp_path)}
    done = subprocess.run([*SHELLS["bash"], script], env=env, capture_output=True, text=True, check=False)
    assert done.stdout.split() == ["peroxide"], done.stderr


@pytest.mark.skipif(not shutil.which("fish"), reason="needs fish")
def test_completion_in_fish_itself(tmp_path: Path):
    (tmp_path / "footlight").write_text(f"#!/bin/sh\nexec '{sys.executable}' -c '{COMMAND[2]}' \"$@\"\n")
    (tmp_path / "footlight").chmod(0o755)
    script = "footlight completion fish --script | source; complete -C 'footlight mix pero'"
    env = os.environ | {"PATH": f"{tmp_path}{os.pathsep}{os.environ['PATH']}", "HOME": str(tmp_path)}
    done = subprocess.run([*SHELLS["fish"], script], env=env, capture_output=True, text=True, check=False)
    assert done.stdout.startswith("peroxide\t"), done.stderr


@pytest.mark.skipif(sys.platform == "win32", reason="a pipe of Unix")
def test_a_reader_that_has_enough_is_no_error(tmp_path: Path):
    """`footlight manual | head -1`: nothing but the line, and no traceback."""
    typed = f"'{sys.executable}' -c '{COMMAND[2]}' manual | head -1"
    done = subprocess.run(
        ["sh", "-c", typed],
        env=os.environ | {"HOME": str(tmp_path)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.stdout.startswith("footlight ") and done.stderr == ""


def test_no_help_shows_how_it_is_laid_out():
    """click's mark for lines that stay as they are only counts at the head of a paragraph."""
    for words, _ in every_command():
        told = CliRunner().invoke(group, [*words, "--help"]).output
        assert "Usage:" in told and "\b" not in told, words


def test_json_loses_no_arrow_in_an_output_that_takes_few_characters(tmp_path: Path):
    words = ["light", "time", "6 s, 620 mm, f/11", "800 mm", "--json"]
    told = subprocess.run(
        [*COMMAND, *words],
        env=os.environ | {"HOME": str(tmp_path), "PYTHONIOENCODING": "cp1252"},
        capture_output=True,
        check=True,
    ).stdout
    assert "→" in json.dumps(json.loads(told.decode("cp1252")), ensure_ascii=False)
