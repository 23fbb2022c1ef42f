"""Writes the tables of faults in docs/controller.md and docs/faults.md: `python docs/make_faults.py`."""

import re
from pathlib import Path

from footlight.meanings import FAULTS

HERE = Path(__file__).parent
_RULE = "|---|---|---|\n"
# Page -> the head of its table, and its rows.
TABLES = {
    "controller.md": (
        "| word | what it means | what to look at |\n",
        [f"| `{word}` | {fault.meaning} | {fault.check} |\n" for word, fault in FAULTS.items()],
    ),
    "faults.md": (
        "| word | the sheet | mend, check |\n",
        [f"| `{word}` | {fault.sheet} | {fault.check} |\n" for word, fault in FAULTS.items()],
    ),
}


def page(name: str) -> str:
    """The text of a page with its table as it is to be; the prose around it stays."""
    head, rows = TABLES[name]
    text, count = re.subn(
        re.escape(head + _RULE) + r"(\|.*\n)*",
        lambda _: head + _RULE + "".join(rows),
        (HERE / name).read_text("utf-8"),
    )
    if count != 1:
        raise ValueError(f"{name}: {count} tables that begin with {head.strip()}; there is to be one")
    return text


if __name__ == "__main__":
    for name in TABLES:
        (HERE / name).write_text(page(name), "utf-8", newline="\n")
