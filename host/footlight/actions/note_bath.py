"""What was found out about a bath that is in use: times, temperature, its own capacity, a note."""

from collections.abc import Mapping
from pathlib import Path

from footlight.errors import InputError, field
from footlight.notebook.book import notebook
from footlight.notebook.stock import baths
from footlight.notebook.stock.baths import Bath, Finding

# Of a bath in a darkroom; common practice, no source.
_LEAST_C, _MOST_C = 5, 60


def note_bath(
    book: Path, name: str, values: Mapping[str, float], note: str, at_s: int, now_s: int
) -> tuple[Bath, list[Finding]]:
    """Write findings about the bath of that name -> the bath, and what was written.

    values: kind of finding -> value: clearing [s], temperature [°C], topped [mL], sheets [of 8x10], hours
    [h]. at_s: when it was so, now_s: the present [s since 1970]. Raises InputError where there is nothing to
    write or a value is none of a bath, NotebookError where no such bath is in use.
    """
    findings = [Finding(kind, value, at_unix_s=at_s) for kind, value in values.items()]
    findings += [Finding("note", None, note, at_s)] if note else []
    if not findings:
        fields = ", ".join(field(kind) for kind in ("clearing", "temperature", "topped"))
        raise InputError(f"{name}: nothing to write; give a note, {fields}, ...")
    _check_temperature(values.get("temperature"))
    with notebook(book, writing=True, making=False) as connection:
        bath = baths.current(connection, name)
        baths.note(connection, [(bath, finding) for finding in findings], now_s)
    return bath, findings


def _check_temperature(temperature_c: float | None) -> None:
    if temperature_c is not None and not _LEAST_C <= temperature_c <= _MOST_C:
        raise InputError(
            f"{field('temperature')}: {temperature_c:g} °C is out of range for a bath; allowed is"
            f" {_LEAST_C} to {_MOST_C} °C"
        )
