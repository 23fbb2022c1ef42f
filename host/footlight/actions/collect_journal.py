"""Journal to notebook, in the one order that loses nothing: read, commit, then acknowledge."""

import sqlite3
from dataclasses import dataclass, replace
from pathlib import Path

from footlight.actions.forecast_baths import spent_by_another
from footlight.link import find, journal
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
    something went wrong. `mix_fresh`: baths that one more such sheet would spoil, a sentence each."""

    controller: str
    brought: bring.Brought
    missing: tuple[int, int] | None
    behind: int | None
    acknowledged: bool
    papers: paper_home.Filled
    outside: list[aftermath.Advice]
    aftermath: dict[int, list[aftermath.Advice]]
    mix_fresh: tuple[str, ...] = ()


def collect_journal(book: Path, now_s: int, port: str | None = None) -> Home:
    """Everything that the notebook does not have yet, from the controller at `port` or the only one, and what
    one more sheet would spoil. now_s: the computer's time [s since 1970].

    Raises LinkError and NotebookError; what was not committed stays on the controller. Works with a
    controller of another make.
    """
    channel = find.connect(port, unix_s=now_s, any_make=True)
    try:
        home = bring_home(channel, book, now_s)
    finally:
        channel.close()
    spent = spent_by_another(book, home.controller, home.brought.runs, now_s)
    return replace(home, mix_fresh=tuple(spent))


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
        journal.count_on(channel, by_number.greatest(connection, greeting.id))
        papers = paper_home.fill_in(connection, epoch, brought.sheets, now_s)
        after = _aftermath(connection, greeting.id, brought)
        rest = [aftermath.of_fault(code) for code in faulted.outside(connection, epoch, first)]
    missing = (first, reach.first - 1) if reach.first > first else None
    behind = reach.last if reach.last < first - 1 else None
    return Home(greeting.id, brought, missing, behind, acknowledged, papers, rest, after)


def _aftermath(
    connection: sqlite3.Connection, controller: str, brought: bring.Brought
) -> dict[int, list[aftermath.Advice]]:
    by_sheet = {}
    for number in sorted(brought.sheets):
        story = by_number.story(connection, by_number.find(connection, number, controller))
        runs = [part for part in story.runs if part.run in brought.runs]
        advice = [word for part in runs for word in aftermath.of_run(part)]
        if advice:
            by_sheet[number] = advice
    return by_sheet
