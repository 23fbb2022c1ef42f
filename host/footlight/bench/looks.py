"""The display at moments worth a look, kept for whoever draws them."""

from collections.abc import Callable
from dataclasses import dataclass

from footlight.bench.bench import Bench


@dataclass(frozen=True)
class Look:
    """What the display showed, when [ms since the bench began], and why it is worth a look."""

    at_ms: int
    word: str
    rows: list[list[bool]]


class Looks:
    """Keeps looks at a bench; each word once until they are taken."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench
        self._kept: list[Look] = []

    def any(self) -> Callable[[str], None]:
        """A look that keeps the first moment of each word."""
        return self._keep

    def only(self, *words: str) -> Callable[[str], None]:
        """A look that keeps these words alone."""
        return lambda word: self._keep(word) if word in words else None

    def take(self) -> list[Look]:
        """What was kept; then begin anew."""
        looks, self._kept = self._kept, []
        return looks

    def _keep(self, word: str) -> None:
        if all(look.word != word for look in self._kept):
            self._kept.append(Look(self._bench.now_ms, word, self._bench.screen_rows()))
