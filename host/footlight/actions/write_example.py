"""Write a shipped sequence to start from, with its light setups."""

from dataclasses import dataclass
from pathlib import Path

from footlight import examples, whole_file

_OTHERWISE = "give another name, or move it away first"


@dataclass(frozen=True)
class ExampleFiles:
    """Where the sequence and its light setups are. setups_kept: they were there, and were left as they
    are."""

    file: Path
    setups: Path
    setups_kept: bool


def write_example(name: str, file: Path | None = None) -> ExampleFiles:
    """Write the example of that name (`examples.NAMES`) to `file`, or to its own name here.

    Raises InputError rather than writing over anything.
    """
    file = file or Path(f"{name}.toml")
    whole_file.write(file, examples.text(f"{name}.toml"), _OTHERWISE)
    setups = file.parent / examples.SETUPS
    kept = setups.exists()
    if not kept:
        whole_file.write(setups, examples.text(examples.SETUPS), _OTHERWISE)
    return ExampleFiles(file, setups, kept)
