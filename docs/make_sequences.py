"""Fills the tables of docs/sequences.md from the declarations of the reader: `python docs/make_sequences.py`.

What stands between `<!-- keys: NAME -->` and `<!-- end -->` is made; the rest of the page is written by hand.
"""

import re
from collections.abc import Sequence
from pathlib import Path

from footlight.sequence import setup_keys, step_keys
from footlight.sequence.keys import Key
from footlight_core import program

PAGE = Path(__file__).with_name("sequences.md")
TABLE = re.compile(r"<!-- keys: ([a-z -]+) -->\n.*?<!-- end -->", re.DOTALL)
COMMON = {key.name for key in step_keys.PAUSE}
KEYS: dict[str, Sequence[Key]] = {
    "head": step_keys.HEAD,
    "tray": step_keys.TRAY,
    "all steps": step_keys.PAUSE,
    "bath": step_keys.BATH,
    "agitation": step_keys.AGITATION,
    "by hand": step_keys.BY_HAND,
    "cue": step_keys.CUE,
    "until pressed": step_keys.UNTIL_PRESSED,
    "light": step_keys.LIGHT,
    "setups file": setup_keys.FILE,
    "lamp": setup_keys.LAMP,
    "setup": setup_keys.SETUP,
}
LIMITS = (
    ("steps in a sequence", f"{program.MAX_STEPS}"),
    ("sheets in a batch", f"{program.MAX_SHEETS}"),
    ("lamps in a sequence", f"{program.MAX_LAMPS}"),
    ("bytes of the compiled program", f"{program.MAX_BYTES}"),
    ("characters on the display", f"{program.SHOWN_CHARS}, of which at most three are M, V or W"),
    ("characters of a name", f"{program.NAME_CHARS}"),
    ("longest light of any lamp", f"{program.LIGHT_CAP_MS // 1000} s"),
    ("longest bath", f"{program.BATH_CAP_MS // 3_600_000} h"),
)


def table(name: str) -> str:
    """The table of one kind of keys; what all steps share is said once."""
    if name == "limits":
        return "\n".join(["| | at most |", "|---|---|", *(f"| {what} | {most} |" for what, most in LIMITS)])
    shared = COMMON if name in step_keys.STEPS else set()
    rows = [_row(key) for key in KEYS[name] if key.name not in shared]
    return "\n".join(["| key | means | allowed | if not written | example |", "|---|---|---|---|---|", *rows])


def _row(key: Key) -> str:
    unless = "**must be written**" if key.is_required else key.unless
    cells = (f"`{key.name}`", key.meaning, key.reader.allowed, unless, f"`{key.example}`")
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"


def page(written: str) -> str:
    """The page with every table made anew."""
    return TABLE.sub(lambda match: f"<!-- keys: {match[1]} -->\n{table(match[1])}\n<!-- end -->", written)


if __name__ == "__main__":
    PAGE.write_text(page(PAGE.read_text(encoding="utf-8")), encoding="utf-8")
