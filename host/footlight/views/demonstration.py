"""The demo as it is told, a chapter after the other."""

from collections.abc import Iterator
from typing import assert_never

from footlight.actions.demonstrate import Chapter, Closed, Flashed, Planned, Processed, Recorded, Uploaded
from footlight.actions.give_light_twice import Twice
from footlight.quantities.signs import signed_stops
from footlight.views.display import display_lines
from footlight.views.journal_home import home_lines
from footlight.views.plan import plan_lines
from footlight.views.run_table import part_lines


def chapter_lines(chapter: Chapter, width: int | None = None, tool: str = "footlight") -> Iterator[str]:
    """What a person is told of a chapter. width: of the terminal in characters; tool: how the tool is called
    here."""
    match chapter:
        case Planned(compiled):
            yield from _titled("The plan", plan_lines(compiled, width=width))
        case Uploaded():
            yield from _titled("Over the link to the controller's firmware", _upload(chapter))
        case Flashed(sheets, looks):
            yield from _titled(f"Pre-flash: a batch of {sheets} dry sheets", display_lines(looks))
        case Processed(looks):
            title = "The wet run of the first sheet: one bath over time, one light stopped, one power cut"
            yield from _titled(title, display_lines(looks))
        case Recorded():
            yield from _record(chapter, width)
        case Twice(asked_s):
            title = f"A light of {asked_s:g} s while the mains sag by 5 %, by seconds and counted"
            yield from _titled(title, _twice(chapter))
        case Closed():
            yield from _close(chapter, tool)
        case _:
            assert_never(chapter)


def _titled(text: str, lines) -> Iterator[str]:
    yield f"\n── {text} {'─' * max(0, 96 - len(text))}\n"
    yield from lines


def _upload(uploaded: Uploaded) -> Iterator[str]:
    yield f"The firmware runs on {uploaded.interpreter}."
    for compiled, delivery in uploaded.deliveries:
        size = f"{len(compiled.data)} bytes into slot {delivery.slot}"
        yield f"{delivery.title}: {size}, hash {delivery.sha256[:8]}"


def _record(recorded: Recorded, width: int | None) -> Iterator[str]:
    yield from _titled("The journal comes home", home_lines(recorded.home))
    yield from _titled(f"Sheet {recorded.story.number}, planned against given", ())
    for part in recorded.story.runs:
        yield from [*part_lines(part, arithmetic=True, width=width), ""]
    yield f"\nThe picture of it: {recorded.picture} (and .svg)"


def _twice(twice: Twice) -> Iterator[str]:
    for course in reversed(twice.courses):
        had = f"paper has had {course.dose_s[-1]:.1f} s of it, {signed_stops(course.error_stops)}"
        yield f"{course.name:<12}{course.gate_s:.1f} s of lamp: {had}"
    yield f"\nThe picture of it: {twice.picture}"


def _close(closed: Closed, tool: str) -> Iterator[str]:
    yield (
        f"\n{closed.darkroom_min:.0f} minutes of darkroom in {closed.took_s:.1f} s; "
        f"{closed.events} events of its hardware watched, no rule broken."
    )
    yield f"Everything shown here is invented. Next: '{tool} bench' puts the pedal under your own foot,"
    yield f"and '{tool} desk --notebook {closed.book}' opens all of it in the browser."
