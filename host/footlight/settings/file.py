"""The settings file: where it lies, what it says, and how one line of it is changed."""

import os
from pathlib import Path

from footlight.errors import InputError
from footlight.folders import user_folder
from footlight.settings.declared import SETTINGS, Value, read

FILE_NAME = "settings.toml"
FILE_ENV = "FOOTLIGHT_SETTINGS"
_MOST_BYTES = 64 * 1024
_HEAD = "# Settings of footlight; 'footlight settings' shows what counts.\n"


def path() -> Path:
    """Where the file lies, or would."""
    if named := os.environ.get(FILE_ENV):
        return Path(named)
    return user_folder("config") / FILE_NAME


def written(file: Path) -> dict[str, object]:
    """What stands in the file, not checked; nothing where there is none. Raises InputError for no TOML."""
    return _parsed(_text(file), file)


def checked(table: dict[str, object], file: Path) -> dict[str, Value]:
    """The settings of a table that was read from `file`. Raises InputError naming file and key."""
    if not table:
        return {}
    # Only here: most commands find no file, and shall not wait for its reader.
    from footlight.quantities.table import in_file, keys_of

    where = in_file(str(file))
    keys_of(table, SETTINGS, where)
    return {name: read(SETTINGS[name], written, where(name)) for name, written in table.items()}


def change(name: str, value: Value | None) -> None:
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
    checked(_parsed(text, file), file)
    _replace(file, text)


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
