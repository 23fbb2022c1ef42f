"""The printer's settings: one file, `settings.toml`, in the platform's folder for them.

An option of a command wins over the environment, that over the file, the file over the default. Only lasting
preferences are settings; what belongs to one print stands in its sequence, what belongs to a lamp in its
light setups.
"""

import os
from dataclasses import dataclass
from pathlib import Path

from footlight.errors import InputError

FILE_NAME = "settings.toml"
FILE_ENV = "FOOTLIGHT_SETTINGS"
OPTION, ENVIRONMENT, FILE, DEFAULT = "option", "environment", "file", "default"
PATH, TEXT, SWITCH = "path", "text", "switch"
_ALLOWED = {
    PATH: 'a path from the root, or from "~/"',
    TEXT: "1 to 200 characters",
    SWITCH: "true, false",
}
_SWITCHED = {
    "1": True,
    "true": True,
    "yes": True,
    "on": True,
    "0": False,
    "false": False,
    "no": False,
    "off": False,
}
_MOST_CHARS, _MOST_BYTES = 200, 64 * 1024
_HEAD = "# Settings of footlight; 'footlight settings' shows what counts.\n"

Value = str | bool


@dataclass(frozen=True)
class Setting:
    """One setting. option: what a command calls it; unless: what holds where it is set nowhere."""

    name: str
    kind: str
    meaning: str
    option: str
    unless: str
    example: str

    @property
    def env(self) -> str:
        """Its variable in the environment."""
        return f"FOOTLIGHT_{self.name.upper()}"

    @property
    def allowed(self) -> str:
        """What may be written."""
        return _ALLOWED[self.kind]


SETTINGS = {
    setting.name: setting
    for setting in (
        Setting(
            "notebook",
            PATH,
            "the notebook file",
            "--notebook",
            "notebook.sqlite in your platform's folder for data",
            '"~/prints/notebook.sqlite"',
        ),
        Setting(
            "port",
            TEXT,
            "port or address of the controller",
            "--port",
            "the only controller",
            '"/dev/ttyACM0"',
        ),
        Setting(
            "setups",
            PATH,
            "the light-setups file of commands that read no sequence",
            "--setups",
            "light-setups.toml in the folder where you work",
            '"~/prints/light-setups.toml"',
        ),
        Setting(
            "bench",
            PATH,
            "folder of the bench: its flash, its practice notebook",
            "--folder",
            "bench in your platform's folder for data",
            '"~/prints/bench"',
        ),
        Setting(
            "quiet", SWITCH, "no hints and no progress; results and errors alone", "--quiet", "false", "true"
        ),
    )
}


@dataclass(frozen=True)
class Held:
    """What counts for a setting. value: None = its default. source: one of the words above."""

    setting: Setting
    value: Value | None
    source: str


def path() -> Path:
    """Where the file lies, or would."""
    if named := os.environ.get(FILE_ENV):
        return Path(named)
    import platformdirs

    return platformdirs.user_config_path("footlight", appauthor=False) / FILE_NAME


def in_the_file() -> dict[str, Value]:
    """What the file says, checked; nothing where there is none. Raises InputError naming file and key."""
    return _checked(_read(path()), path())


def from_file(name: str) -> Value | None:
    """One setting as the file has it, None if it has not."""
    return in_the_file().get(name)


def held(name: str) -> Held:
    """What counts for one setting where no option is given. Raises InputError."""
    setting = SETTINGS[name]
    written = os.environ.get(setting.env)
    if written:
        return Held(setting, read(setting, written, setting.env), ENVIRONMENT)
    value = from_file(name)
    return Held(setting, value, DEFAULT if value is None else FILE)


def read(setting: Setting, written: object, what: str) -> Value:
    """A value as it was written: in the file, in the environment or by hand. Raises InputError."""
    if setting.kind == SWITCH:
        return _switch(written, what)
    if not isinstance(written, str) or not 0 < len(written) <= _MOST_CHARS or not written.isprintable():
        raise InputError(
            f"{what}: it must be {setting.allowed}, for example {setting.name} = {setting.example}"
        )
    return written if setting.kind == TEXT else str(_from_home(written, what))


def put(name: str, written: str) -> Held:
    """Set one in the file, which is made if need be; the rest of it stays as it is. Raises InputError."""
    setting = SETTINGS[_known(name)]
    if setting.kind == PATH and written:
        # What is typed is meant from the folder where it is typed; the file holds it for any folder.
        written = str(Path(written).expanduser().absolute())
    value = read(setting, written, name)
    _change(name, value)
    return Held(setting, value, FILE)


def take_out(name: str) -> bool:
    """Leave one to its default again -> whether the file had it, known or not. Raises InputError."""
    if name not in _read(path()):
        _known(name)
        return False
    _change(name, None)
    return True


def _known(name: str) -> str:
    from footlight.quantities.table import choice

    return choice(name, SETTINGS, "settings")


def _checked(table: dict[str, object], file: Path) -> dict[str, Value]:
    if not table:
        return {}
    # Only here: most commands find no file, and shall not wait for its reader.
    from footlight.quantities.table import in_file, keys_of

    where = in_file(str(file))
    keys_of(table, SETTINGS, where)
    return {name: read(SETTINGS[name], written, where(name)) for name, written in table.items()}


def _switch(written: object, what: str) -> bool:
    if isinstance(written, bool):
        return written
    if isinstance(written, str) and written.lower() in _SWITCHED:
        return _SWITCHED[written.lower()]
    raise InputError(f"{what}: '{written}' is no switch; write true or false")


def _from_home(written: str, what: str) -> Path:
    try:
        found = Path(written).expanduser()
    except RuntimeError as error:
        raise InputError(f"{what}: '{written}': there is no such home; write the whole path") from error
    if not found.is_absolute():
        raise InputError(
            f"{what}: '{written}' depends on the folder where you work; allowed is {_ALLOWED[PATH]}"
        )
    return found


def _read(file: Path) -> dict[str, object]:
    return _parsed(_text(file), file)


def _text(file: Path) -> str:
    try:
        with file.open("rb") as stream:
            data = stream.read(_MOST_BYTES + 1)
    except FileNotFoundError:
        return ""
    except OSError as error:
        raise InputError(f"{file}: cannot be read ({(error.strerror or str(error)).lower()})") from error
    if len(data) > _MOST_BYTES:
        raise InputError(f"{file}: longer than {_MOST_BYTES // 1024} KiB: these are no settings")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise InputError(f"{file}: is not written in UTF-8; save it again as UTF-8") from error


def _parsed(text: str, file: Path) -> dict[str, object]:
    if not text:
        return {}
    import tomllib

    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise InputError(f"{file}: {str(error).lower()}; see 'footlight settings --help'") from error


def _change(name: str, value: Value | None) -> None:
    """The file with one key anew, or without it; every other line, and every comment, as it was."""
    import tomlkit

    file = path()
    before = _text(file)
    _parsed(before, file)
    document = tomlkit.parse(before or _HEAD)
    if value is None:
        del document[name]
    else:
        document[name] = value
    text = tomlkit.dumps(document)
    _checked(_parsed(text, file), file)
    _replace(file, text)


def _replace(file: Path, text: str) -> None:
    import tempfile

    # A file that is a link stays one.
    real = file.resolve()
    try:
        real.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.NamedTemporaryFile(
            "w", encoding="utf-8", newline="\n", dir=real.parent, prefix=FILE_NAME, delete=False
        ) as stream:
            stream.write(text)
        os.replace(stream.name, real)
    except OSError as error:
        raise InputError(f"{file}: cannot be written ({(error.strerror or str(error)).lower()})") from error
