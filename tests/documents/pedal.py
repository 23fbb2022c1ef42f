"""The pedal as a page's sentences have it: what a reader does who takes them at their word.

A sentence of this list is carried out on the bench where it stands in the page. One that speaks of the
pedal in other words is not known here, and a page that is read so may have none (`unread`).
"""

import re
from collections.abc import Callable

from footlight.bench import Bench
from footlight.bench.glyphs import read_text

_LOOK_MS = 1000
_MOST_PRESSES = 24
_PAGES = 4  # so many looks see all that is shown in turn
_WORD = r"(?P<word>[A-Z0-9]+(?: \d+)?)"
_PEDAL = re.compile(r"short press|long press|long one|\btaps?\b", re.IGNORECASE)


def _shows(bench: Bench, word: str) -> None:
    for _ in range(_PAGES):
        if read_text(bench.screen_rows()) == word:
            return
        bench.run_for(_LOOK_MS)
    raise ValueError(f"the page says that the display shows '{word}'; it is {read_text(bench.screen_rows())}")


def _tap(bench: Bench) -> None:
    bench.tap()
    bench.run_for(_LOOK_MS)


def _hold(bench: Bench) -> None:
    bench.hold()
    bench.run_for(_LOOK_MS)


def _turn(bench: Bench, word: str) -> None:
    for _ in range(_MOST_PRESSES):
        if read_text(bench.screen_rows()) == word:
            return
        _tap(bench)
    raise ValueError(f"short presses never show '{word}'")


def _turn_once(bench: Bench, word: str) -> None:
    _tap(bench)
    _shows(bench, word)


def _take(bench: Bench, word: str) -> None:
    _shows(bench, word)
    _hold(bench)


def _leave(bench: Bench, word: str) -> None:
    _shows(bench, word)
    _tap(bench)


SENTENCES: tuple[tuple[re.Pattern[str], Callable[[Bench, str], None]], ...] = tuple(
    (re.compile(pattern), act)
    for pattern, act in (
        (rf"[Tt]he display shows {_WORD}: a long press arms it", _take),
        (rf"[Ii]t says {_WORD}: a short press leads back to the titles", _leave),
        (rf"[Ss]hort presses turn the titles until the display shows {_WORD}", _turn),
        (rf"[Aa] short press turns the titles to {_WORD}", _turn_once),
        (r"\b[Aa] long press arms it; (?P<word>)", lambda bench, word: _hold(bench)),
        (rf"{_WORD} asks whether it is sheet \d+: a long press takes it", _take),
    )
)


def _found(prose: str) -> list[tuple[re.Match[str], Callable[[Bench, str], None]]]:
    text = " ".join(prose.split())
    met = [(match, act) for pattern, act in SENTENCES for match in pattern.finditer(text)]
    return sorted(met, key=lambda pair: pair[0].start())


def carry_out(bench: Bench, prose: str) -> None:
    """Do with the pedal what a paragraph says, in its order. Raises ValueError where it is not so."""
    for match, act in _found(prose):
        bench.run_for(_LOOK_MS)
        act(bench, match["word"])


def speaks(prose: str) -> bool:
    """Is there something to be done in it?"""
    return bool(_found(prose))


def unread(prose: str) -> list[str]:
    """The sentences about the pedal that are not carried out."""
    text = " ".join(prose.split())
    for match, _ in _found(prose):
        text = text.replace(match[0], "")
    return [sentence for sentence in re.split(r"(?<=[.!?])\s", text) if _PEDAL.search(sentence)]
