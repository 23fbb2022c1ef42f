"""Writes docs/uncertainty.md: every answer against a million draws. `python docs/make_uncertainty.py`."""

import sys
from pathlib import Path

DOCS = Path(__file__).parent
sys.path.insert(0, str(DOCS.parent))

from tests.host.light import draws  # noqa: E402

PAGE = DOCS / "uncertainty.md"
HEAD = """# How often the truth lies within ±

Each ± of the tool is meant to hold the truth in two of three cases (68 %). Here every kind of answer is
held against a million draws: heights, stops, readings and the paper's exponent are drawn about what was
typed, each as far off as `footlight light tolerances` and `footlight camera tolerances` say (while the
exponent is not measured: anywhere from 0.8 to 1.0), the laws are applied to each draw, and it is counted
how many lie within. *Off* is how far the mean of the draws lies from what is told. The test accepts 66 to
70 %; it says nothing of whether the figures taken for granted are those of your darkroom.

One law holds for the enlarger and the camera: light dimmer by S stops needs S/p stops of time. Measured p
comes from `footlight light long`; until then p = 0.9 ± 0.1 is taken in both, and the time by reciprocity is
told beside it.

| answer | ± | off | within |
|---|---|---|---|
"""


def row(case: draws.Case) -> str:
    inside, half, bias = draws.share_within(case)
    places = 2 if case.unit == "stop" else 0
    return f"| `{case.words}` | {half:.{places}f} {case.unit} | {_signed(bias, places)} | {inside:.0%} |"


def _signed(value: float, places: int) -> str:
    return f"{round(value, places) + 0.0:+.{places}f}".replace("-", "−")


def make() -> None:
    """The whole page."""
    rows = "\n".join(row(case) for case in draws.CASES)
    PAGE.write_text(HEAD + rows + "\n", encoding="utf-8")


if __name__ == "__main__":
    make()
