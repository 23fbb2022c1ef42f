"""Writing about a sheet by answering questions: single letters, Enter for 'leave as it is', for damp hands.

Nothing is written before the last Enter; Ctrl-C on the way shows what was answered so far and asks whether to
save that.
"""

from collections.abc import Callable, Iterable
from dataclasses import replace
from pathlib import Path

import click

from footlight.actions.write_sheet import Standing, small_picture
from footlight.errors import FootlightError, InputError
from footlight.notebook.sheets.entries import SheetEntry
from footlight.notebook.sheets.remarks import DEFECTS, VERDICTS


def letters(words: Iterable[str]) -> dict[str, str]:
    """A letter for each word: its first, or the next of its letters that is still free."""
    by_letter: dict[str, str] = {}
    for word in words:
        by_letter[next(letter for letter in word if letter not in by_letter)] = word
    return by_letter


def ask(known: Standing) -> SheetEntry:
    """The answers as an entry; an empty one when nothing is to be saved. Raises click.Abort on Ctrl-C when
    nothing was answered, or at the last question."""
    entry = SheetEntry()
    try:
        for question in (_verdict, _defects, _note, _paper, _picture):
            entry = _answered(question, known, entry)
    except (click.Abort, KeyboardInterrupt):  # in a question, or between two
        if entry.is_empty:
            raise
        click.echo("\nStopped here.")
    return _confirmed(entry)


def _answered(
    question: Callable[[Standing, SheetEntry], SheetEntry], known: Standing, entry: SheetEntry
) -> SheetEntry:
    """The entry with one more answer; a question that was misunderstood is asked again."""
    while True:
        try:
            return question(known, entry)
        except FootlightError as error:
            click.echo(f"  {error}")


def _confirmed(entry: SheetEntry) -> SheetEntry:
    if entry.is_empty:
        click.echo("Nothing answered, nothing saved.")
        return entry
    click.echo("This will be saved:")
    for line in entry.lines():
        click.echo(f"  {line}")
    answer = _line("Enter saves it, n leaves all as it was")
    if answer.lower() in ("", "y", "j", "s"):
        return entry
    click.echo("Nothing saved.")
    return SheetEntry()


def _verdict(known: Standing, entry: SheetEntry) -> SheetEntry:
    by_letter = letters(VERDICTS)
    answer = _line(f"verdict  {_choices(by_letter)}", known.verdict)
    return replace(entry, verdict=_word(answer, by_letter)) if answer else entry


def _defects(known: Standing, entry: SheetEntry) -> SheetEntry:
    by_letter = letters(DEFECTS)
    answer = _line(f"defects  {_choices(by_letter)}; several: mv", ", ".join(known.defects))
    # A word is taken as a word, anything else letter by letter.
    named = [answer] if answer.lower() in DEFECTS else list(answer.replace(",", "").replace(" ", ""))
    defects = dict.fromkeys(_word(part, by_letter) for part in named)
    return replace(entry, defects=tuple(defect for defect in defects if defect not in known.defects))


def _note(known: Standing, entry: SheetEntry) -> SheetEntry:
    return replace(entry, note=_line("note     in your words"))


def _paper(known: Standing, entry: SheetEntry) -> SheetEntry:
    if not known.batches:
        return entry
    answer = _line(f"paper    {', '.join(batch.name for batch in known.batches)}", known.paper)
    if not answer:
        return entry
    exact = [batch for batch in known.batches if batch.name == answer]
    like = [batch for batch in known.batches if batch.name.lower().startswith(answer.lower())]
    fitting = exact or like
    if len(fitting) != 1:
        raise InputError(f"'{answer}': {'several begin so' if fitting else 'no such paper'}; Enter leaves it")
    return replace(entry, batch=fitting[0])


def _picture(known: Standing, entry: SheetEntry) -> SheetEntry:
    answer = _line("picture  a file")
    if not answer:
        return entry
    return replace(entry, pictures=(small_picture(Path(answer.strip("'\"")).expanduser()),))


def _line(question: str, stands: str = "") -> str:
    shown = f"{question} [{stands}]" if stands else question
    return click.prompt(shown, default="", show_default=False).strip()


def _choices(by_letter: dict[str, str]) -> str:
    return ", ".join(f"{letter} {word}" for letter, word in by_letter.items())


def _word(answer: str, by_letter: dict[str, str]) -> str:
    answer = answer.lower()
    if answer in by_letter.values():
        return answer
    if answer not in by_letter:
        raise InputError(f"'{answer}': {_choices(by_letter)}, or Enter to leave it")
    return by_letter[answer]
