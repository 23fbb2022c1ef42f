"""Which settings there are, and how each is written."""

from dataclasses import dataclass
from pathlib import Path

from footlight.errors import InputError

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
_MOST_CHARS = 200

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


def read(setting: Setting, written: object, what: str) -> Value:
    """A value as it was written: in the file, in the environment or by hand. Raises InputError."""
    if setting.kind == SWITCH:
        return _switch(written, what)
    if not isinstance(written, str) or not 0 < len(written) <= _MOST_CHARS or not written.isprintable():
        raise InputError(
            f"{what}: it must be {setting.allowed}, for example {setting.name} = {setting.example}"
        )
    return written if setting.kind == TEXT else str(_from_home(written, what))


def known(name: str) -> str:
    from footlight.quantities.table import choice

    return choice(name, SETTINGS, "settings")


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
