"""`accept` writes a reference into the light-setups file and nothing else; `undo` puts it back."""

import json
import sqlite3

import pytest
from darkroom import refused, room, run

from footlight.notebook.book import notebook
from footlight.notebook.stock import light_setups
from footlight.sequence import setups_edit
from footlight.sequence.setups import load_setups

PLAN = ("second", "6 s", "--setup", "second-strip", "--step", "1 stop", "--steps", 7, "--blade", "30 mm")


@pytest.fixture
def dark(tmp_path, monkeypatch):
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", "")
    made = room(tmp_path)
    monkeypatch.chdir(tmp_path)
    made.lit(made.planned(*PLAN), 41)
    assert run("read", "eye", "--first-full", 4, "--last-clean", 7, "--sheet", 41).exception is None
    return made


def text(dark):
    return dark.setups.read_bytes()


def test_only_the_references_change(dark):
    before = text(dark).decode()
    found = run("accept", "--yes")
    assert found.exception is None, found.exception
    told = [line for line in found.output.splitlines() if line]
    assert told[0] == "light-setups.toml, setup 'second':"
    assert told[1].split(maxsplit=1) == ["before", "6.0 s at 620 mm f/11"]
    new = told[2].split(maxsplit=1)[1]
    # Both setups with this lamp, lens and reference have it; every other byte is as before.
    assert text(dark).decode() == before.replace("6.0 s at 620 mm f/11", new)
    assert before.count("6.0 s at 620 mm f/11") == 2
    reference = load_setups(dark.setups).setups["second"].setup.reference
    assert reference is not None and reference.seconds == float(new.split()[0])


def test_undone_to_the_byte(dark):
    before = text(dark)
    run("accept", "--yes")
    assert text(dark) != before
    said = run("undo").output
    assert "taken back: reading 1 accepted: second, second-strip" in said
    assert "setup 'second': reference 6.0 s at 620 mm f/11 again" in said
    assert text(dark) == before
    with notebook(dark.book, writing=False) as book:
        assert light_setups.history(book, 9) == []


def test_a_file_that_was_changed_since_is_left(dark):
    run("accept", "--yes")
    changed = text(dark).decode().replace("[setup.second-strip]", "[setup.strip-2]")
    changed = changed.replace("reference = ", 'reference = "7 s at 620 mm f/11" # ', 1)
    dark.setups.write_text(changed, "utf-8")
    said = run("undo").output
    assert "setup 'second': says 7 s at 620 mm f/11, which was written since; left as it is" in said
    assert "setup 'second-strip': is gone" in said
    assert text(dark).decode() == changed


def test_other_changes_since_do_not_hinder_it(dark):
    run("accept", "--yes")
    dark.setups.write_text(text(dark).decode() + "# one more word\n", "utf-8")
    assert "again" in run("undo").output
    assert text(dark).decode().endswith("# one more word\n")
    assert text(dark).decode().count("6.0 s at 620 mm f/11") == 2


def test_a_file_that_is_gone_is_said(dark):
    run("accept", "--yes")
    dark.setups.unlink()
    assert "left as it is" in run("undo").output


def test_history(dark):
    run("accept", "--yes", "--setup", "second")
    with notebook(dark.book, writing=False) as book:
        (one,) = light_setups.history(book, 9)
    assert (one.setup, one.before, one.reading_id) == ("second", "6.0 s at 620 mm f/11", 1)
    assert one.file == str(dark.setups.resolve()) and one.after in text(dark).decode()


def test_twice_changes_nothing(dark):
    run("accept", "--yes")
    before = text(dark)
    assert "already; nothing to change" in run("accept", "--yes").output
    assert text(dark) == before


def test_it_asks(dark):
    from click.testing import CliRunner

    from footlight.cli.main import group

    before = text(dark)
    found = CliRunner().invoke(group, ["accept"], input="n\n")
    assert found.exit_code != 0 and "Write it?" in found.output and text(dark) == before


def test_another_dose_and_json(dark):
    found = run("accept", "1", "--dose", "7 s", "--setup", "second", "--yes", "--json")
    told = json.loads(found.output)
    assert told["reference"] == "7.0 s at 620 mm f/11"
    assert told["changed"] == [
        {"setup": "second", "before": "6.0 s at 620 mm f/11", "after": "7.0 s at 620 mm f/11"}
    ]


def test_refused(dark):
    assert "reading 9: not in the notebook" in refused("accept", 9)
    assert "no light setup 'sceond'" in refused("accept", "--setup", "sceond", "--yes")
    assert "light-setups.toml" not in refused("accept", "--setups", "none.toml", "--yes")
    run("read", "eye", "--first-full", 4, "--last-clean", 4, "--sheet", 41)
    assert "found no safe dose" in refused("accept", "--yes")
    run("read", "eye", "--first-full", 4, "--last-clean", 7, "--present", "6 s", "--centre", "6 s", "--keep")
    assert "its light setup is not known" in refused("accept", "--at", "620 mm f/11", "--yes")
    assert "where its strip stood is not known" in refused("accept", "--setup", "second", "--yes")
    assert "'here' is not a length" in refused("accept", "--setup", "second", "--at", "here", "--yes")
    assert "its stop is missing" in refused("accept", "--setup", "second", "--at", "620 mm", "--yes")


def test_a_file_that_cannot_be_written_leaves_no_history(dark, monkeypatch):
    before = text(dark)

    def fails(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.replace", fails)
    assert "No space left on device" in refused("accept", "--yes")
    assert text(dark) == before
    assert not [path for path in dark.folder.iterdir() if path.name.startswith(".light")]
    with notebook(dark.book, writing=False) as book:
        assert light_setups.history(book, 9) == []


def test_power_gone_between_file_and_notebook(dark, monkeypatch):
    """The commit is never reached: the file holds the new reference, the history does not; both say so."""
    real = setups_edit.write

    def then_the_power_goes(path, changed):
        real(path, changed)
        raise KeyboardInterrupt

    monkeypatch.setattr(setups_edit, "write", then_the_power_goes)
    run("accept", "--yes")
    monkeypatch.setattr(setups_edit, "write", real)
    assert "already; nothing to change" in run("accept", "--yes").output
    with notebook(dark.book, writing=False) as book:
        assert light_setups.history(book, 9) == []


def test_power_gone_in_an_undo(dark):
    """The file is back, the act still stands: undo again says that the file says it already."""
    before = text(dark)
    run("accept", "--yes")
    dark.setups.write_bytes(before)
    assert "says 6.0 s at 620 mm f/11 already" in run("undo").output
    assert text(dark) == before


def test_a_commit_that_fails_puts_the_file_back(dark, monkeypatch):
    before = text(dark)
    real, written = setups_edit.write, []

    def then_the_disk_is_full(path, changed):
        real(path, changed)
        written.append(text(dark))
        if len(written) == 1:
            error = sqlite3.OperationalError("database or disk is full")
            error.sqlite_errorcode = sqlite3.SQLITE_FULL
            raise error

    monkeypatch.setattr(setups_edit, "write", then_the_disk_is_full)
    assert "the disk is full" in refused("accept", "--yes")
    assert len(written) == 2 and written[0] != before and text(dark) == before


SPELLINGS = (
    '[setup."second-strip"]\nlamp = "l"\nheight = "620 mm"\nreference = "1 s at 620 mm" # mine\n',
    '[setup]\nsecond-strip = { lamp = "l", height = "620 mm", reference = "1 s at 620 mm" } # inline\n',
    '[setup.second-strip]\r\nlamp = "l"\r\nheight = "620 mm"\r\nreference="1 s at 620 mm"\r\n# end\r\n',
    "[setup.second-strip]\nlamp = 'l'\nheight = '620 mm'\nreference = '1 s at 620 mm'\n\n[lamp.m]\n",
)
LAMP = '\n[lamp.l]\ncap = "9 s"\nten_minute_limit = "1:00"\n'


@pytest.mark.parametrize("spelling", SPELLINGS)
def test_every_spelling_of_the_file(spelling):
    before = spelling.replace("[lamp.m]\n", "") + LAMP
    wanted = "2 s at 620 mm"
    after = setups_edit.with_references(before, "x", {"second-strip": wanted})
    assert setups_edit.references(after, "x") == {"second-strip": wanted}
    assert after.replace(f'"{wanted}"', "1") == before.replace('"1 s at 620 mm"', "1").replace(
        "'1 s at 620 mm'", "1"
    )
    assert setups_edit.with_references(after, "x", {"second-strip": "1 s at 620 mm"}).replace('"', "'") == (
        before.replace('"', "'")
    )


def test_where_there_was_none():
    before = '# mine\n[setup.a]\nlamp = "l"\nheight = "620 mm"\n\n# lamps\n' + LAMP
    after = setups_edit.with_references(before, "x", {"a": "2 s at 620 mm"})
    assert after != before and "# lamps" in after
    assert setups_edit.with_references(after, "x", {"a": ""}) == before
