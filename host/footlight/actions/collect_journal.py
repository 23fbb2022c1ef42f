"""Journal to notebook, in the one order that loses nothing: read, commit, then acknowledge."""

import sqlite3
from dataclasses import asdict, dataclass
from pathlib import Path

from footlight.cli.numbers import spans
from footlight.link import journal
from footlight.link.channel import Channel
from footlight.notebook.book import notebook
from footlight.notebook.journal import bring, faulted, paper_home
from footlight.notebook.sheets import by_number
from footlight.report import aftermath


@dataclass(frozen=True)
class Home:
    """What was brought. `missing`: numbers of records that nobody has any more. `behind`: the controller's
    journal ends before the notebook's, at this number (else None). `papers`: the sheets' paper, filled in.
    `outside`: what faults in no run leave to do; `aftermath`: what is to be done of each sheet with which
    something went wrong."""

    controller: str
    brought: bring.Brought
    missing: tuple[int, int] | None
    behind: int | None
    acknowledged: bool
    papers: paper_home.Filled
    outside: list[aftermath.Advice]
    aftermath: dict[int, list[aftermath.Advice]]


def bring_home(channel: Channel, book: Path, now_s: int) -> Home:
    """Everything that the notebook does not have yet, from a greeted controller."""
    greeting = channel.greeting
    assert greeting is not None
    with notebook(book, writing=True) as connection:
        epoch = bring.epoch_id(connection, greeting.id, greeting.epoch, now_s)
        first = bring.next_number(connection, epoch)
        reach = journal.extent(channel)
        brought = bring.bring(connection, epoch, journal.read(channel, first), now_s)
        acknowledged = True
        if brought.last:
            # Everything up to here was committed above; only now may the controller delete it.
            acknowledged = journal.acknowledge(channel, brought.last)
        if brought.last and acknowledged:
            bring.note_kept(connection, epoch, brought.last)
        papers = paper_home.fill_in(connection, epoch, brought.sheets, now_s)
        after = _aftermath(connection, greeting.id, brought)
        rest = [aftermath.of_fault(code) for code in faulted.outside(connection, epoch, first)]
    missing = (first, reach.first - 1) if reach.first > first else None
    behind = reach.last if reach.last < first - 1 else None
    return Home(greeting.id, brought, missing, behind, acknowledged, papers, rest, after)


def _aftermath(
    connection: sqlite3.Connection, controller: str, brought: bring.Brought
) -> dict[int, list[aftermath.Advice]]:
    found = {}
    for number in sorted(brought.sheets):
        story = by_number.story(connection, by_number.find(connection, number, controller))
        advice = [one for part in story.runs if part.run in brought.runs for one in aftermath.of_run(part)]
        if advice:
            found[number] = advice
    return found


def lines(home: Home) -> list[str]:
    """What a person is told of it."""
    brought = home.brought
    count = f"{brought.new} new record{'' if brought.new == 1 else 's'}"
    said = [f"{count} from controller {home.controller}{_of(brought)}"]
    said += paper_lines(home.papers)
    said += [
        f"sheet {sheet}: {advice.text}" for sheet, all_of_it in home.aftermath.items() for advice in all_of_it
    ]
    said += [f"in no run: {advice.text}" for advice in home.outside]
    if brought.damaged:
        said.append(f"damaged on the controller, kept as they are: records {spans(brought.damaged)}")
    if brought.unknown:
        said.append(
            f"of a kind that this footlight does not know, kept: records {spans(brought.unknown)}; "
            "update footlight on the computer"
        )
    if brought.differing:
        said.append(
            f"records {spans(brought.differing)} differ from the notebook's, which were left as they are"
        )
    if home.missing:
        said.append(
            f"records {home.missing[0]}–{home.missing[1]} are no longer on the controller: "
            "another notebook has them"
        )
    if home.behind is not None:
        said.append(
            f"the controller's journal ends at record {home.behind}, before the notebook's: it lost its end"
        )
    if not home.acknowledged:
        said.append(
            "the controller is busy at the pedal: it keeps its records until the next 'footlight collect'"
        )
    return said


def as_dict(home: Home) -> dict[str, object]:
    """The same for a script."""
    brought = home.brought
    return {
        "controller": home.controller,
        "new": brought.new,
        "last": brought.last,
        "runs": sorted(brought.runs),
        "sheets": sorted(brought.sheets),
        "damaged": brought.damaged,
        "unknown": brought.unknown,
        "differing": brought.differing,
        "missing": home.missing,
        "behind": home.behind,
        "acknowledged": home.acknowledged,
        "papers": home.papers.given,
        "papers_short": home.papers.short,
        "aftermath": {sheet: [asdict(one) for one in advice] for sheet, advice in home.aftermath.items()},
        "outside": [asdict(one) for one in home.outside],
    }


def paper_lines(filled: paper_home.Filled) -> list[str]:
    """What a person is told of the paper that was filled in."""
    said = [
        f"paper {name}, which is in use, for {spans(numbers)}: "
        "'footlight write NUMBER --paper NAME' corrects one"
        for name, numbers in filled.given.items()
    ]
    return said + [
        f"paper {name} has no sheets left by the count for {spans(numbers)}: "
        "'footlight paper use' changes over, 'footlight paper assign' fills in"
        for name, numbers in filled.short.items()
    ]


def _of(brought: bring.Brought) -> str:
    parts = []
    if brought.runs:
        parts.append(f"{len(brought.runs)} run{'s' if len(brought.runs) > 1 else ''}")
    if brought.sheets:
        parts.append(f"sheet{'s' if len(brought.sheets) > 1 else ''} {spans(sorted(brought.sheets))}")
    return ": " + ", ".join(parts) if parts else ""
