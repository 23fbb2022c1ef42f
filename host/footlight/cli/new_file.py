"""A file that a command writes: never over another one unless that is asked for; what is wrong in a line."""

from pathlib import Path

from footlight.errors import InputError


def write(path: Path, text: str, way_out: str, *, replacing: bool = False) -> None:
    """Write a text file. Raises InputError where there is one already (`way_out` says what to do then), or
    none can be written."""
    try:
        with path.open("w" if replacing else "x", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
    except FileExistsError:
        raise InputError(f"{path}: is there already; {way_out}") from None
    except OSError as error:
        raise InputError(
            f"{path}: cannot be written ({(error.strerror or 'no reason given').lower()}); name another place"
        ) from None
