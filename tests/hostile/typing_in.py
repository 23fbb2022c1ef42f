"""Commands as typed at a terminal, in this process: what they write, and that nothing falls through."""

import contextlib
import io
import sys
import traceback
from dataclasses import dataclass

import pytest

from footlight.cli import main

# What no terminal may get: controls but newline and tab, and what turns the direction of writing.
FORBIDDEN = [
    chr(code)
    for code in (*range(9), *range(11, 32), *range(127, 160), 0x061C, 0x200E, 0x200F, 0x2028, 0x2029)
    + (*range(0x202A, 0x202F), *range(0x2066, 0x206A))
]


@dataclass
class Typed:
    """What came of a command."""

    code: int
    out: str
    err: str

    def is_clean(self) -> bool:
        """Nothing that a terminal would obey."""
        return not any(char in self.out + self.err for char in FORBIDDEN)

    def is_one_line(self) -> bool:
        """One line of error, and an exit code that says so."""
        said = [line for line in self.err.splitlines() if line.startswith("footlight: ")]
        return self.code not in (0, None) and len(said) == 1 and self.err.count("\n") < 4


def typed(*words: object) -> Typed:
    """Type `footlight WORDS`."""
    with pytest.MonkeyPatch.context() as patch:
        out, err = (io.TextIOWrapper(io.BytesIO(), encoding="utf-8") for _ in range(2))
        patch.setattr(sys, "argv", ["footlight", *map(str, words)])
        patch.setattr(sys, "stdout", out)
        patch.setattr(sys, "stderr", err)
        code = 0
        try:
            main.run()
        except SystemExit as end:
            code = end.code if isinstance(end.code, int) else 0 if end.code is None else 1
        except BaseException:  # noqa: BLE001 - whatever falls through is a traceback at a terminal
            code = -1
            err.write(traceback.format_exc())
        with contextlib.suppress(ValueError):
            out.flush()
            err.flush()
        return Typed(code, *(stream.buffer.getvalue().decode("utf-8") for stream in (out, err)))  # type: ignore[attr-defined]
