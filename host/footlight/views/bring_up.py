"""What came of a bring-up, told to a person and to a script."""

from dataclasses import asdict
from typing import Any

from footlight.actions.bring_up import BringUp

_WORDS = {True: "good", False: "BAD", None: "left out"}


def bring_up_lines(result: BringUp) -> list[str]:
    """A line for each thing that was tried."""
    lines = []
    for check in result.checks:
        measured = f" ({check.measured})" if check.measured else ""
        lines.append(f"{_WORDS[check.passed]:8}  {check.part}: {check.what}{measured}")
    return lines


def bring_up_dict(result: BringUp) -> dict[str, Any]:
    """The same for a script."""
    return asdict(result)
