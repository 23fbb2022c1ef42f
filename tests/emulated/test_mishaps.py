"""One mishap of each kind on the emulated chip; the campaign is for `make soak` (tests/soak/chips.py)."""

from collections.abc import Callable

import pytest
from tests.emulated import needs_image

assert not needs_image.missing()

from tests.emulated import mishaps  # noqa: E402


@pytest.mark.parametrize("kind", mishaps.KINDS, ids=lambda kind: kind.__name__)
def test_a_mishap(kind: Callable[[mishaps.Trial], None]):
    assert mishaps.trial(kind, 0) == []


def test_what_is_wrong_is_told(monkeypatch: pytest.MonkeyPatch):
    def broken(trial: mishaps.Trial) -> None:
        trial.expect(False, "a lamp that burns")

    assert mishaps.trial(broken, 0) == ["broken 0: a lamp that burns"]
