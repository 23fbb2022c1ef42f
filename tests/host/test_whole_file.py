"""A file is there whole or not at all, over another one only when asked; so also where the disk is full."""

import subprocess
import sys
from pathlib import Path

import pytest
from tests.host.cli.day import Day, day

from footlight import examples, whole_file
from footlight.errors import InputError

__all__ = ["day"]

MOST_BYTES = 1024  # that a command may write into one file: less than any of these takes


def test_what_fails_half_way_leaves_what_was_there(tmp_path: Path):
    path = tmp_path / "card.html"
    path.write_text("of before", encoding="utf-8")
    with (
        pytest.raises(InputError, match=r"card\.html: cannot be written \(no space left"),
        whole_file.whole(path, replacing=True) as part,
    ):
        part.write_text("half", encoding="utf-8")
        raise OSError(28, "No space left on device")
    assert path.read_text(encoding="utf-8") == "of before"
    assert list(tmp_path.iterdir()) == [path]


def test_nothing_is_written_over_unasked(tmp_path: Path):
    path = tmp_path / "card.html"
    whole_file.write(path, "first")
    with pytest.raises(InputError, match=r"is there already; name another$"):
        whole_file.write(path, "second")
    whole_file.write(path, "second", replacing=True)
    assert path.read_text(encoding="utf-8") == "second"


def test_a_folder_comes_whole_or_not_at_all(tmp_path: Path):
    with pytest.raises(ValueError, match="broken"), whole_file.whole(tmp_path / "tables") as part:
        part.mkdir()
        (part / "acts.csv").touch()
        raise ValueError("broken")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("taken", ["a folder", "/dev/null"])
def test_what_is_no_file_is_not_replaced(tmp_path: Path, taken: str):
    path = tmp_path if taken == "a folder" else Path(taken)
    if not path.exists():
        pytest.skip("no such device here")
    with pytest.raises(InputError, match="a folder or a device; name a file"):
        whole_file.write(path, "text", replacing=True)
    assert path.exists() and not path.is_file()


@pytest.mark.skipif(sys.platform == "win32", reason="links need a privilege there")
def test_a_link_stays_a_link(tmp_path: Path):
    real, link = tmp_path / "real.toml", tmp_path / "link.toml"
    real.touch()
    link.symlink_to(real)
    whole_file.write(link, "text", replacing=True)
    assert link.is_symlink() and real.read_text(encoding="utf-8") == "text"


@pytest.mark.skipif(sys.platform == "win32", reason="no limit on a file's size there")
@pytest.mark.parametrize(
    ("line", "target"),
    [
        ("backup", "copy.sqlite"),
        ("export", "out.json"),
        ("export --csv", "tables"),
        ("page card print.toml --out", "card.html"),
        ("sheet 41 --picture", "time-line.svg"),
        ("manual --out", "footlight.1"),
    ],
)
def test_a_full_disk_leaves_no_half_file(day: Day, tmp_path: Path, line: str, target: str):
    import resource

    day.know_program()
    folder = tmp_path / "prints"
    folder.mkdir()
    for name, text in (("print.toml", "reversal-print.toml"), (examples.SETUPS, examples.SETUPS)):
        (folder / name).write_text(examples.text(text), encoding="utf-8")
    before = sorted(folder.iterdir())
    ended = subprocess.run(
        [sys.executable, "-c", "from footlight.cli.main import run; run()", *line.split(), target],
        cwd=folder,
        capture_output=True,
        text=True,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (MOST_BYTES, MOST_BYTES)),
    )
    assert ended.returncode in (2, 7)
    assert ended.stderr.count("\n") == 1 and target in ended.stderr, ended.stderr
    assert sorted(folder.iterdir()) == before
