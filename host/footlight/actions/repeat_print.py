"""Repeat a print: look up what was sent, change it, hold it against today, write it, send it."""

from dataclasses import dataclass, replace
from pathlib import Path

from footlight import quantities as q
from footlight import sequence
from footlight.actions import list_changes
from footlight.actions.forecast_baths import forecast_baths
from footlight.actions.send_sequence import send_sequence
from footlight.actions.write_sequence import write_sequence
from footlight.errors import InputError, field
from footlight.link import upload
from footlight.notebook.book import notebook
from footlight.notebook.dates import when_text
from footlight.notebook.sheets import by_number, print_source
from footlight.notebook.sheets.by_number import RunPart, Story
from footlight.notebook.sheets.print_source import GivenLight, Sent
from footlight.sequence import again, edited
from footlight.sequence.again import Wish
from footlight_core.program import BATH, LIGHT

_MARK = "Again as print "
_AS_GIVEN, _AS_PLANNED = field("as_given"), field("as_planned")
# Nearer to the plan than this a foot need not be.
_TOLD_MS = 5000


@dataclass(frozen=True)
class Change:
    """What a repeat is to be, otherwise than the print.

    wish: other light, height, stop or size. as_given: what the sheet really had, else what was planned; None
    where nobody said, which is refused if the two differ. run: of the sheet, None for the last. setups: light
    setups of today in place of those of then. paper: the batch that it will be, None for the last used.
    words: the wish as its writer put it, for the head of the file; '' for none.
    """

    wish: Wish = Wish()
    as_given: bool | None = None
    run: int | None = None
    setups: Path | None = None
    paper: str | None = None
    words: str = ""


@dataclass(frozen=True)
class Repeat:
    """A repeat that was written. before: the sequence of then, compiled anew. after: the one written.
    written: the files that are new. baths: those that will not last. delivery: where it went, None if it was
    not sent."""

    story: Story
    part: RunPart
    kept: Sent
    before: sequence.Compiled
    after: sequence.Compiled
    notes: tuple[str, ...]
    since: tuple[str, ...]
    written: tuple[Path, ...]
    baths: tuple[str, ...] = ()
    delivery: upload.Delivery | None = None


def repeat_print(
    number: int,
    target: Path,
    book: Path,
    now_s: int,
    change: Change = Change(),  # noqa: B008  frozen
    *,
    controller: str | None = None,
    replacing: bool = False,
) -> Repeat:
    """Write the repeat of a sheet to `target`, its light setups beside it. Raises FootlightError, one line,
    and then writes nothing. now_s: the computer's time [s since 1970]."""
    with notebook(book, writing=False) as connection:
        story = by_number.story(connection, by_number.find(connection, number, controller))
        part = print_source.run_to_repeat(story, change.run)
        kept = print_source.sent(connection, story, part)
        before = _before(kept, number, change.setups)
        wish = _wish(part, number, change)
        changed = again.again(before.sequence, wish)
        text = edited.edited(kept.source, changed.edits, _head(story, part, change), _MARK)
        setups = _setups_text(kept, change.setups) if before.sequence.setups_path else ""
        after, written = write_sequence(text, setups, target, replacing)
        facts = list_changes.facts(connection, story, part, kept, before, change.paper, now_s)
        here = list_changes.setups_here(before.sequence, target.parent, written)
    notes = (*_given_notes(part, wish), *changed.notes)
    baths = tuple(forecast_baths(after, book, now_s).warnings)
    return Repeat(story, part, kept, before, after, notes, (*facts, *here), written, baths)


def send_repeat(repeat: Repeat, book: Path, now_s: int, port: str | None = None) -> Repeat:
    """The same, after what was written is sent. Raises LinkError."""
    return replace(repeat, delivery=send_sequence(repeat.after, book, now_s, port=port))


def _before(kept: Sent, number: int, setups: Path | None) -> sequence.Compiled:
    name = f"the sequence of print {number}"
    text = _setups_text(kept, setups)
    has_light = any(step["kind"] == LIGHT for step in kept.program["steps"])
    if has_light and not text:
        raise InputError(
            f"print {number}: its light setups were not kept when it was sent; name the file that they are"
            f" in today: {field('setups')} light-setups.toml, and look at the times that come of it"
        )
    return sequence.compile(sequence.load_kept(kept.source, text, name))


def _setups_text(kept: Sent, setups: Path | None) -> str:
    if setups is None:
        return kept.setups
    sequence.load_setups(setups)  # whatever is wrong with it is said by its own name
    return setups.read_text("utf-8-sig")


def _wish(part: RunPart, number: int, change: Change) -> Wish:
    lights = print_source.given_lights(part)
    if change.as_given is None:
        _refuse_doubt(lights, number)
    if not change.as_given:
        return change.wish
    stops = {light.step: _known_stops(light, number) for light in lights}
    return replace(change.wish, given_stops=stops, given_ms=print_source.given_baths_ms(part.rows))


def _refuse_doubt(lights: list[GivenLight], number: int) -> None:
    for light in lights:
        if not light.is_as_planned:
            raise InputError(
                f"print {number}: its light '{light.name}' was {_in_words(light)}; say which you want:"
                f" {_AS_GIVEN} or {_AS_PLANNED}"
            )


def _known_stops(light: GivenLight, number: int) -> float:
    if light.stops is None:
        raise InputError(
            f"print {number}: its light '{light.name}' was {_in_words(light)}; {_AS_GIVEN} cannot repeat"
            f" that: take {_AS_PLANNED}, or edit the file"
        )
    return light.stops


def _in_words(light: GivenLight) -> str:
    planned = f"of {light.planned_ms / 1000:.2f} s planned"
    if light.given_ms is None:
        return f"cut off by a power cut: how much {planned} it had is not known"
    if light.stops is None:
        return f"not given ({light.given_ms / 1000:.2f} s {planned})"
    return f"given {light.given_ms / 1000:.2f} s {planned} ({q.format_stops(light.stops)})"


def _given_notes(part: RunPart, wish: Wish) -> list[str]:
    """What eye and foot did then: nothing that the file repeats, and worth knowing."""
    judged = [row for row in part.rows if isinstance(row, by_number.BathRow) and row.most_ms is not None]
    notes = [
        f"'{row.name}' was ended by eye after {q.format_duration(round(row.real_ms, -2))} then"
        for row in judged
        if row.real_ms
    ]
    notes += [] if wish.given_ms else _late(part)
    skipped = [row for row in part.rows if isinstance(row, by_number.BathRow) and row.how == "skipped"]
    notes += [f"'{row.name}' was skipped then; it is in the file all the same" for row in skipped]
    return notes + (["times as given then, from the journal"] if wish.given_stops or wish.given_ms else [])


def _late(part: RunPart) -> list[str]:
    """Baths that were far from their plan, which a repeat of the plan is not."""
    baths = [row for row in part.rows if isinstance(row, by_number.BathRow) and row.kind == BATH]
    return [
        f"'{row.name}' was {_bath_text(row.real_ms)} then, {_bath_text(row.planned_ms)} planned"
        for row in baths
        if row.how not in ("aside", "skipped") and abs(row.difference_ms or 0) >= _TOLD_MS
    ]


def _bath_text(duration_ms: int | None) -> str:
    return "–" if duration_ms is None else q.format_duration(round(duration_ms, -2))


def _head(story: Story, part: RunPart, change: Change) -> list[str]:
    """What the file says of itself."""
    words = "; ".join(filter(None, [change.words, "times as given" if change.as_given else ""]))
    told = _one_line(words or "unchanged")
    return [f"{_MARK}{story.number}, run {part.run}, {when_text(part.when)}: {told}."]


def _one_line(text: str) -> str:
    return " ".join("".join(char if char.isprintable() else " " for char in text).split())
