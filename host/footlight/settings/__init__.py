"""The printer's settings: one file, `settings.toml`, in the platform's folder for them.

An option of a command wins over the environment, that over the file, the file over the default. Only lasting
preferences are settings; what belongs to one print stands in its sequence, what belongs to a lamp in its
light setups.
"""

import os
from dataclasses import dataclass
from pathlib import Path

from footlight.settings import file
from footlight.settings.declared import PATH, SETTINGS, Setting, Value, known, read
from footlight.settings.file import FILE_ENV, path

__all__ = [
    "FILE_ENV",
    "SETTINGS",
    "Held",
    "Setting",
    "from_file",
    "held",
    "in_the_file",
    "path",
    "put",
    "take_out",
]

ENVIRONMENT, FILE, DEFAULT = "environment", "file", "default"


@dataclass(frozen=True)
class Held:
    """What counts for a setting. value: None = its default. source: one of the words above."""

    setting: Setting
    value: Value | None
    source: str


def in_the_file() -> dict[str, Value]:
    """What the file says, checked; nothing where there is none. Raises InputError naming file and key."""
    return file.checked(file.written(path()), path())


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


def put(name: str, written: str) -> Held:
    """Set one in the file, which is made if need be; the rest of it stays as it is. Raises InputError."""
    setting = SETTINGS[known(name)]
    if setting.kind == PATH and written:
        # What is typed is meant from the folder where it is typed; the file holds it for any folder.
        written = str(Path(written).expanduser().absolute())
    value = read(setting, written, name)
    file.change(name, value)
    return Held(setting, value, FILE)


def take_out(name: str) -> bool:
    """Leave one to its default again -> whether the file had it, known or not. Raises InputError."""
    if name not in file.written(path()):
        known(name)
        return False
    file.change(name, None)
    return True
