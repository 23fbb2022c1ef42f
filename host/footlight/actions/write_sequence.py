"""A sequence file and the light setups that it needs, written together or not at all."""

from pathlib import Path

from footlight import sequence, whole_file
from footlight.sequence.edited import Edit, edited
from footlight.sequence.step_keys import SETUPS_FILE


def write_sequence(
    text: str, setups: str, target: Path, replacing: bool
) -> tuple[sequence.Compiled, tuple[Path, ...]]:
    """Write both, check and compile what was written -> it, and the files that are new.

    setups: '' for a sequence without a light. Where light setups that say the same lie beside `target`, they
    are used. Raises InputError, and then leaves everything as it was.
    """
    files: dict[Path, str] = {}
    if setups:
        beside = _setups_file(target, setups)
        text = edited(text, [Edit("", "setups", beside.name)])
        files |= {} if _says(beside, setups) else {beside: setups}
    files[target] = text
    for path in files:
        if not replacing:
            whole_file.refuse_existing(path, whole_file.OR_REPLACE)
    before = {path: path.read_bytes() if path.exists() else None for path in files}
    try:
        for path, content in files.items():
            whole_file.write(path, content, replacing=replacing)
        return sequence.compile(sequence.load(target)), tuple(files)
    except BaseException:
        for path, content in before.items():
            _restore(path, content)
        raise


def _setups_file(target: Path, setups: str) -> Path:
    """The setups that lie there already if they say the same, else a file of the repeat's own."""
    usual = target.with_name(SETUPS_FILE)
    return usual if _says(usual, setups) else target.with_name(f"{target.stem}-setups.toml")


def _says(path: Path, text: str) -> bool:
    try:
        return path.is_file() and path.read_text("utf-8-sig") == text
    except (OSError, UnicodeDecodeError):
        return False  # whatever it is, it is not these setups


def _restore(path: Path, content: bytes | None) -> None:
    if content is not None:
        path.write_bytes(content)
    else:
        path.unlink(missing_ok=True)
