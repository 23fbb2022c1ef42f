"""What the controller's own check would refuse, said in the words of the sequence file.

The reader and the compiler catch all of it before, with better advice; this is the last barrier.
"""

from footlight.errors import InputError
from footlight.sequence.errors import printable
from footlight.sequence.model import Sequence
from footlight_core.errors import ProgramError

# Key of the program -> key of the file.
FILE_KEYS = {
    "time_ms": "time",
    "lift_ms": "lift",
    "stir_first_ms": "agitation.first",
    "stir_every_ms": "agitation.every",
    "stir_for_ms": "agitation.for",
    "least_ms": "least",
    "most_ms": "most",
    "dead_ms": "dead_time of the setup",
    "height_mm": "height",
    "settle_ms": "settle",
    "auto": "after",
    "white": "white_light",
    "steps": "step",
    "lamps": "setup",
    "lamp": "setup",
    "cap_ms": "cap of the lamp",
    "window_ms": "ten_minute_limit of the lamp",
    "place": "place of the tray",
    "tongs": "tongs of the tray",
}


def in_words(error: ProgramError, sequence: Sequence) -> InputError:
    """One line: file, step, key, value, allowed range."""
    where = sequence.places.get(error.step, printable(str(sequence.path)))
    key = FILE_KEYS.get(error.key, error.key)
    unit = " ms" if error.key.endswith("_ms") else ""
    return InputError(f"{where}: {key}: {error.found}{unit}; the controller allows {error.allowed}")
