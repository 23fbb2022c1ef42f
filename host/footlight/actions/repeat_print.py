"""What `again` does: look up what was sent, change it, hold it against today, write it, send it."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from footlight import quantities as q
from footlight import sequence
from footlight.cli import ahead, sending
from footlight.cli.again import since_then, written_together
from footlight.errors import InputError
from footlight.link import find, upload
from footlight.notebook.book import notebook
from footlight.notebook.sheets import by_number, print_source
from footlight.notebook.sheets.by_number import RunPart, Story
from footlight.notebook.sheets.print_source import GivenLight, Sent
from footlight.sequence import again, edited
from footlight.sequence.again import Wish
from footlight.views.times import bath_text, when_text

_MARK = "Again as print "
# Nearer to the plan than this a foot need not be.
_TOLD_MS = 5000


@dataclass(frozen=True)
class Made:
    """A repeat that was written. before: the sequence of then, compiled anew. after: the one written.
    written: the files that are new. baths: those that will not last. sent: where it went, None if it was not
    sent."""

    story: Story
    part: RunPart
    kept: Sent
    before: sequence.Compiled
    after: sequence.Compiled
    notes: tuple[str, ...]
    since: tuple[str, ...]
    written: tuple[Path, ...]
    baths: tuple[str, ...] = ()
    sent: upload.Sent | None = None


def make(number: int, target: Path, book: Path, now_s: int, options: Mapping[str, Any]) -> Made:
    """Write the repeat of a sheet to `target`. Raises FootlightError, one line, and then writes nothing."""
    with notebook(book, writing=False) as connection:
        story = by_number.story(connection, by_number.find(connection, number, options["controller"]))
        part = print_source.run_to_repeat(story, options["run"])
        kept = print_source.sent(connection, story, part)
        before = _before(kept, number, options["setups"])
        wish = _wish(part, number, options)
        changed = again.again(before.sequence, wish)
        text = edited.edited(kept.source, changed.edits, _head(story, part, options), _MARK)
        setups = _setups_text(kept, options["setups"]) if before.sequence.setups_path else ""
        after, written = written_together.write(text, setups, target, options["replace"])
        facts = since_then.facts(connection, story, part, kept, before, options["paper"], now_s)
        here = since_then.setups_here(before.sequence, target.parent, written)
    notes = (*_given_notes(part, wish), *changed.notes)
    outlook = ahead.baths_ahead(after, book, now_s)
    baths = tuple(outlook.warnings) if outlook else ()
    return Made(story, part, kept, before, after, notes, (*facts, *here), written, baths)


def send(made: Made, port: str | None, book: Path, now_s: int) -> Made:
    """Send what was written, as `footlight send` does."""
    channel = find.connect(port, unix_s=now_s)
    return replace(made, sent=sending.keep_and_send(channel, made.after, book, now_s))


def _before(kept: Sent, number: int, setups: Path | None) -> sequence.Compiled:
    name = f"the sequence of print {number}"
    text = _setups_text(kept, setups)
    has_light = any(step["kind"] == "light" for step in kept.program["steps"])
    if has_light and not text:
        raise InputError(
            f"print {number}: its light setups were not kept when it was sent; name the file that they are"
            " in today: --setups light-setups.toml, and look at the times that come of it"
        )
    return sequence.compile(sequence.load_kept(kept.source, text, name))


def _setups_text(kept: Sent, setups: Path | None) -> str:
    if setups is None:
        return kept.setups
    sequence.load_setups(setups)  # whatever is wrong with it is said by its own name
    return setups.read_text("utf-8-sig")


def _wish(part: RunPart, number: int, options: Mapping[str, Any]) -> Wish:
    lights = print_source.given_lights(part)
    as_given = options["as_given"]
    if as_given is None:
        _refuse_doubt(lights, number)
    more, height, stop = options["more"], options["height"], options["stop"]
    size, old_size = options["size"], options["old_size"]
    wish = Wish(
        light=options["light"],
        more_stops=q.parse_stops(more, "--second") if more else 0.0,
        height_mm=q.parse_length_mm(height, "--height") if height else None,
        stop=q.parse_stop(stop, "--stop") if stop else None,
        sheet=q.parse_sheet(size, "--size") if size else None,
        old_sheet=q.parse_sheet(old_size, "--from") if old_size else None,
    )
    if not as_given:
        return wish
    stops = {light.step: _known_stops(light, number) for light in lights}
    return replace(wish, given_stops=stops, given_ms=print_source.given_baths_ms(part.rows))


def _refuse_doubt(lights: list[GivenLight], number: int) -> None:
    for light in lights:
        if not light.is_as_planned:
            raise InputError(
                f"print {number}: its light '{light.name}' was {_in_words(light)}; say which you want:"
                " --as-given or --as-planned"
            )


def _known_stops(light: GivenLight, number: int) -> float:
    if light.stops is None:
        raise InputError(
            f"print {number}: its light '{light.name}' was {_in_words(light)}; --as-given cannot repeat that:"
            " take --as-planned, or edit the file"
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
    judged = [row for row in part.rows if isinstance(row, by_number.BathRow) and row.kind == "judge"]
    told = [
        f"'{row.name}' was ended by eye after {q.format_duration(round(row.real_ms, -2))} then"
        for row in judged
        if row.real_ms
    ]
    told += [] if wish.given_ms else _late(part)
    skipped = [row for row in part.rows if isinstance(row, by_number.BathRow) and row.how == "skipped"]
    told += [f"'{row.name}' was skipped then; it is in the file all the same" for row in skipped]
    return told + (["times as given then, from the journal"] if wish.given_stops or wish.given_ms else [])


def _late(part: RunPart) -> list[str]:
    """Baths that were far from their plan, which a repeat of the plan is not."""
    baths = [row for row in part.rows if isinstance(row, by_number.BathRow) and row.kind == "bath"]
    return [
        f"'{row.name}' was {bath_text(row.real_ms)} then, {bath_text(row.planned_ms)} planned"
        for row in baths
        if row.how not in ("aside", "skipped") and abs(row.difference_ms or 0) >= _TOLD_MS
    ]


def _head(story: Story, part: RunPart, options: Mapping[str, Any]) -> list[str]:
    """What the file says of itself."""
    wishes = {
        "second exposure": options["more"],
        "light": options["light"],
        "size": options["size"],
        "height": options["height"],
        "stop": options["stop"],
        "times": "as given" if options["as_given"] else None,
    }
    changed = "; ".join(f"{what} {value}" for what, value in wishes.items() if value) or "unchanged"
    return [f"{_MARK}{story.number}, run {part.run}, {when_text(part.when)}: {_one_line(changed)}."]


def _one_line(text: str) -> str:
    return " ".join("".join(char if char.isprintable() else " " for char in text).split())
