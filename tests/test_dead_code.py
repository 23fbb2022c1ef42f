"""Nothing stands in the house that nobody uses; tests alone are no use, except where a reason says so."""

from pathlib import Path

from vulture import Vulture

ROOT = Path(__file__).parents[1]
LOOKED_AT = ("host", "firmware", "hardware", "docs")
# MicroPython's own modules, simulated: who uses them is the firmware, by their names on the chip.
LEFT_OUT = ["*/host/footlight/bench/box/*"]
# What nobody calls by its name -> why it is there all the same.
REASONS = {
    "_do_*": "answers to messages: session.py calls them by the message's name",
    "_read_*": "readers of records: sheet_ledger.py calls them by the record's kind",
    "firmware/footlight_core/records.py": "kinds of records are numbered and named once, asked for or not",
    "firmware/controller/chip.py": "the chip's registers, named once; some are written at the prompt only",
    "firmware/controller/pins.py": "made from hardware/pins.toml, every pin of it",
    "ASKED": "a reason of the watchdog's scratch register: the absence of the others",
    "exc": "the context manager's protocol",
    "host/footlight/bench/bench.py": "ways to spoil the bench, for tests and campaigns",
    "host/footlight/bench/lamp.py": "what a lamp is made with: the box reads it as JSON",
    "host/footlight/bench/panel.py": "ways to spoil the display, for tests and campaigns",
    "HEAP DOSE": "events that the judges of memory and of light read",
    "listen": "what tests hear of the bench's line",
    "in_raw_repl use_raw_paste device_name mounted is_pty inWaiting": "attributes that mpremote asks for",
    "baudrate timeout exclusive write_timeout": "attributes that pyserial asks for",
    "row_factory": "an attribute that sqlite3 asks for",
    "__getattr__ __dir__": "names that Python asks a module for",
    "color list_commands format_commands": "names that click asks for",
    "light_cap_ms from_version": "fields of a message or a result as it comes, complete",
    "planned_from attached_unix_s scan_sha256": "columns of the notebook, read whole",
    "SVG read_nets": "the drawing's second reader, which tests hold against the netlist",
    "rebuild": "the notebook made anew from its journal: tests hold every derived table against it",
    "TEASPOON_ML split_loss_stops exposure_of exponent_at flash_dose_ratio point_law_error_stops"
    " least_distance_mm parallax_mm NEXT_STOPS": "sums of docs/light.md that a script may want",
    "READING_KINDS": "a closed set that a test holds the notebook's tables to",
    "difference_stops": "the key of a result as a plain dictionary",
    "wrong wrong_beside safety full_name from_share lift_share over_share": "what templates of the desk ask",
    "host/footlight/strips": "results of a reading, shown whole by `asdict`",
}


def has_reason(path: str, name: str) -> bool:
    for subject in REASONS:
        if "/" in subject and path.startswith(subject):
            return True
        for pattern in subject.split():
            if pattern == name or (pattern.endswith("*") and name.startswith(pattern[:-1])):
                return True
    return False


def unused() -> list[tuple[str, str]]:
    """Path and name of everything that vulture finds no use of."""
    vulture = Vulture()
    vulture.scavenge([str(ROOT / folder) for folder in LOOKED_AT], exclude=LEFT_OUT)
    return [
        (Path(item.filename).relative_to(ROOT).as_posix(), item.name)
        for item in vulture.get_unused_code(min_confidence=60)
    ]


def test_nothing_is_dead():
    dead = [f"{path}: {name}" for path, name in unused() if not has_reason(path, name)]
    assert not dead, "take it out, or give a reason"


def test_what_is_dead_is_found(tmp_path: Path):
    (tmp_path / "planted.py").write_text("def nobody_calls_this():\n    return 1\n")
    vulture = Vulture()
    vulture.scavenge([str(tmp_path)])
    assert [item.name for item in vulture.get_unused_code(min_confidence=60)] == ["nobody_calls_this"]
