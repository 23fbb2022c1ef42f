"""Two of three truths lie within what is told as ±, for every kind of answer; see `draws`."""

from pathlib import Path

import pytest
from tests.host.light import draws

DOCS = Path(__file__).parents[3] / "docs"


@pytest.mark.parametrize("case", draws.CASES, ids=lambda case: case.words)
def test_two_of_three_truths_lie_within(case: draws.Case):
    inside, half, bias = draws.share_within(case)
    assert draws.LEAST <= inside <= draws.MOST
    assert abs(bias) < 0.2 * half


def test_the_page_has_every_case():
    page = (DOCS / "uncertainty.md").read_text(encoding="utf-8")
    assert [case.words for case in draws.CASES if f"`{case.words}`" not in page] == []
