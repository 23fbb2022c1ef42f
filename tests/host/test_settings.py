"""The settings file: what it may say, what wins over what, and that changing it leaves the rest alone."""

import json
import os
import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner

from footlight import settings
from footlight.cli.main import group
from footlight.errors import InputError
from footlight.folders import user_folder


@pytest.fixture(autouse=True)
def file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for setting in settings.SETTINGS.values():
        monkeypatch.delenv(setting.env, raising=False)
    monkeypatch.setenv(settings.FILE_ENV, str(tmp_path / "config" / "settings.toml"))
    monkeypatch.chdir(tmp_path)
    return settings.path()


def run(*words: object) -> str:
    result = CliRunner().invoke(group, [str(word) for word in words])
    if isinstance(result.exception, InputError):
        raise result.exception
    assert result.exit_code == 0, result.output
    return result.output


def write(file: Path, text: str) -> None:
    file.parent.mkdir(exist_ok=True)
    file.write_text(text, encoding="utf-8")


def test_where_it_lies_is_the_platforms(monkeypatch: pytest.MonkeyPatch):
    import platformdirs

    monkeypatch.delenv(settings.FILE_ENV)
    assert settings.path().parent == platformdirs.user_config_path("footlight", appauthor=False)


def test_nothing_set(file: Path):
    told = json.loads(run("settings", "--json"))
    assert (told["file"], told["is_there"]) == (str(file), False)
    assert {one["source"] for one in told["settings"]} == {"default"}
    assert [one["name"] for one in told["settings"]] == list(settings.SETTINGS)


def test_file_then_environment_then_option(file: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    def asked(*options: str) -> str:
        return str(CliRunner().invoke(group, ["sheets", *options]).exception)

    write(file, f'notebook = "{(tmp_path / "file.sqlite").as_posix()}"\n')
    assert "file.sqlite" in asked()
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", str(tmp_path / "environment.sqlite"))
    assert "environment.sqlite" in asked()
    assert "option.sqlite" in asked("--notebook", str(tmp_path / "option.sqlite"))
    sources = {one["name"]: one["source"] for one in json.loads(run("settings", "--json"))["settings"]}
    assert sources["notebook"] == "environment" and sources["port"] == "default"


def test_the_setups_of_the_settings(file: Path, tmp_path: Path):
    (tmp_path / "prints").mkdir()
    run("new", "reversal-print", "prints/reversal-print.toml")
    with pytest.raises(InputError, match=r"light-setups\.toml"):
        run("light", "time", "setup second", "800 mm")
    run("settings", "set", "setups", "prints/light-setups.toml")
    assert "800 mm" in run("light", "time", "setup second", "800 mm")


def test_the_port_of_the_settings():
    run("settings", "set", "port", "socket://127.0.0.1:1")
    result = CliRunner().invoke(group, ["slots"])
    assert "socket://127.0.0.1:1" in str(result.exception)
    # Also where one looks for controllers without naming any.
    assert "socket://127.0.0.1:1: nobody listens there" in CliRunner().invoke(group, ["find"]).output


def test_set_and_unset_leave_every_other_line(file: Path):
    write(file, '# mine\nport = "COM3"   # by the window\n\nquiet = false\n')
    run("settings", "set", "port", "/dev/ttyACM1")
    assert file.read_text("utf-8") == '# mine\nport = "/dev/ttyACM1"   # by the window\n\nquiet = false\n'
    run("settings", "unset", "port")
    run("settings", "unset", "port")
    assert file.read_text("utf-8") == "# mine\n\nquiet = false\n"
    assert list(file.parent.iterdir()) == [file]


@pytest.mark.parametrize("value", ['say "no"', "C:\\new\\table", "é ✓", "a = b # c", "'"])
def test_any_text_comes_back_as_it_was(file: Path, value: str):
    run("settings", "set", "port", value)
    assert tomllib.loads(file.read_text("utf-8")) == {"port": value}
    assert settings.held("port").value == value


@pytest.mark.skipif(os.name == "nt", reason="links need a right there")
def test_a_file_that_is_a_link_stays_one(file: Path, tmp_path: Path):
    write(file, "")
    file.unlink()
    kept = tmp_path / "kept.toml"
    kept.touch()
    file.symlink_to(kept)
    run("settings", "set", "port", "COM3")
    assert file.is_symlink() and "COM3" in kept.read_text("utf-8")


def test_a_path_that_is_typed_is_meant_from_here(file: Path, tmp_path: Path):
    run("settings", "set", "notebook", "book.sqlite")
    assert settings.held("notebook").value == str(tmp_path / "book.sqlite")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('notbook = "/x"', "notbook is not a key here; did you mean 'notebook'"),
        ("port = 7", "port: it must be 1 to 200 characters"),
        ('port = ""', "port: it must be"),
        ('port = "a\\u0007b"', "port: it must be"),
        ('notebook = "prints/x.sqlite"', "depends on the folder where you work"),
        ('notebook = "~nobody-of-that-name/x"', "no such home"),
        ('quiet = "sometimes"', "quiet: 'sometimes' is no switch; write true or false"),
        ("port = ", "invalid value"),
        ("[port]\n", "port: it must be"),
        ("# " + "x" * 70_000, "longer than 64 KiB"),
    ],
)
def test_a_bad_file_is_one_line_that_names_it(file: Path, text: str, said: str):
    write(file, f"{text}\n")
    with pytest.raises(InputError) as caught:
        run("settings")
    assert said in str(caught.value) and str(file) in str(caught.value) and "\n" not in str(caught.value)
    assert file.read_text("utf-8") == f"{text}\n"


def test_not_utf8(file: Path):
    write(file, "")
    file.write_bytes(b'port = "\xff"\n')
    with pytest.raises(InputError, match="not written in UTF-8"):
        run("settings")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("set", "prot", "x"), "'prot' is not known; did you mean 'port'?"),
        (("set", "quiet", "maybe"), "write true or false"),
        (("set", "notebook", ""), "it must be"),
        (("unset", "prot"), "'prot' is not known"),
    ],
)
def test_bad_input_writes_nothing(file: Path, words: tuple[str, ...], said: str):
    with pytest.raises(InputError, match=said.replace("?", r"\?")):
        run("settings", *words)
    assert not file.exists()


def test_what_is_not_known_can_be_taken_out(file: Path):
    write(file, 'notbook = "/x"\nquiet = true\n')
    assert "gone" in run("settings", "unset", "notbook")
    assert settings.in_the_file() == {"quiet": True}


def test_a_value_over_several_lines_is_one_value(file: Path):
    write(file, 'port = """\\\n   COM3"""\nquiet = true\n')
    run("settings", "set", "port", "COM4")
    assert settings.in_the_file() == {"port": "COM4", "quiet": True}


def test_a_folder_that_cannot_be_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    (tmp_path / "a-file").touch()
    monkeypatch.setenv(settings.FILE_ENV, str(tmp_path / "a-file" / "settings.toml"))
    with pytest.raises(InputError, match="cannot be"):
        run("settings", "set", "port", "COM3")


@pytest.mark.parametrize("named", [None, "/elsewhere", "relative", ""])
def test_the_folders_are_those_of_the_platform(named: str | None, monkeypatch: pytest.MonkeyPatch):
    """The short way on Linux gives what the library gives."""
    import platformdirs

    for variable in ("XDG_CONFIG_HOME", "XDG_DATA_HOME"):
        if named is None:
            monkeypatch.delenv(variable, raising=False)
        else:
            monkeypatch.setenv(variable, named)
    assert user_folder("config") == platformdirs.user_config_path("footlight", appauthor=False)
    assert user_folder("data") == platformdirs.user_data_path("footlight", appauthor=False)
