"""Two prints as rows: what each had, and by how much they differ."""

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import asdict, dataclass
from typing import Any

from footlight.actions.recall_print import Print
from footlight.errors import InputError
from footlight.light.exposure import convert
from footlight.light.setup import Arrangement
from footlight.notebook.sheets.by_number import BathRow, LightRow, RunPart
from footlight.quantities import format_seconds
from footlight.quantities.signs import signed_stops
from footlight.views.table import columns
from footlight.views.times import bath_text, date_text, light_text, range_text, signed_text, when_text

_TOLD_STOPS = 0.01
_TOLD_MS = 1000
_TOLD_H = 0.5
_NONE = "–"
_LEFT_OUT, _ASIDE = "skipped", "aside"


@dataclass(frozen=True)
class Row:
    """One thing of two prints. difference: right from left, in words; '' where there is nothing to reckon.
    difference_ms, difference_stops: the same as a number, None where it is none."""

    section: str
    what: str
    left: str
    right: str
    differs: bool
    difference: str = ""
    difference_ms: int | None = None
    difference_stops: float | None = None

    def as_dict(self) -> dict[str, Any]:
        """For a script."""
        return asdict(self)


def rows(left: Print, right: Print) -> list[Row]:
    """Everything, in the order of a sheet's life."""
    return [
        *_words("Paper", _paper(left), _paper(right)),
        *_camera(left, right),
        *_words("Baths", _baths(left), _baths(right)),
        *(row for pair in _pairs(left.story.runs, right.story.runs) for row in _run(*pair, left, right)),
        *_words("Written", _written(left), _written(right)),
    ]


def lines(left: int, right: int, compared: Iterable[Row], every: bool) -> list[str]:
    """For a person: of prints `left` and `right` what differs, or every row."""
    shown = [row for row in compared if every or row.differs]
    if not shown:
        return [f"prints {left} and {right}: nothing that is known of them differs"]
    head, *rest = columns(["", f"{left}", f"{right}", "difference"], [_cells(row, every) for row in shown])
    told = [head]
    for section in dict.fromkeys(row.section for row in shown):
        rows = [line for row, line in zip(shown, rest, strict=True) if row.section == section]
        told += ["", section, *rows]
    return told


def _cells(row: Row, marked: bool) -> list[str]:
    mark = ("≠ " if row.differs else "  ") if marked else "  "
    return [mark + row.what, row.left, row.right, row.difference]


def _words(section: str, left: dict[str, str], right: dict[str, str]) -> Iterator[Row]:
    for what in dict.fromkeys([*left, *right]):
        pair = left.get(what) or _NONE, right.get(what) or _NONE
        if pair != (_NONE, _NONE):
            yield Row(section, what, *pair, differs=pair[0] != pair[1])


def _paper(side: Print) -> dict[str, str]:
    paper = side.paper
    if paper is None:
        return {}
    speed = f"{paper.speed:g}" if paper.speed else ""
    return {"batch": paper.name, "paper": paper.paper, "size": paper.size, "exposure index": speed}


def _camera(left: Print, right: Print) -> Iterator[Row]:
    pair = left.camera, right.camera
    for name, what in (("planned_s", "planned"), ("given_s", "given")):
        seconds = [getattr(exposure, name) if exposure else None for exposure in pair]
        if any(seconds):
            yield _times("In the camera", what, seconds)
    yield from _words("In the camera", _camera_words(left), _camera_words(right))


def _times(section: str, what: str, seconds: list[float | None]) -> Row:
    texts = [_NONE if time_s is None else format_seconds(time_s) for time_s in seconds]
    stops = math.log2(seconds[1] / seconds[0]) if seconds[0] and seconds[1] else None
    return _with_stops(section, what, texts, stops)


def _camera_words(side: Print) -> dict[str, str]:
    exposure = side.camera
    if exposure is None:
        return {}
    index = f"{exposure.exposure_index:g}" if exposure.exposure_index else ""
    words = {"lens": exposure.lens, "stop": exposure.stop, "exposure index": index, "holder": exposure.holder}
    return words | {"subject": exposure.subject, "light on it": exposure.light, "filter": exposure.filter}


def _baths(side: Print) -> dict[str, str]:
    """Age to the half hour: a quarter of an hour makes no other bath."""
    return {
        stood.tray: f"mixed {date_text(stood.bath.mixed_unix_s)},"
        f" {round(stood.age_h / _TOLD_H) * _TOLD_H:g} h old"
        for stood in side.baths
    }


def _written(side: Print) -> dict[str, str]:
    return {
        kind: "; ".join(remark.text for remark in side.written if remark.kind == kind)
        for kind in ("verdict", "defect", "note")
    }


def _pairs(left: list[RunPart], right: list[RunPart]) -> list[tuple[RunPart | None, RunPart | None]]:
    """Runs of a kind beside one another: batches with batches, and the last wet runs with each other."""
    pairs: list[tuple[RunPart | None, RunPart | None]] = []
    for is_batch in (True, False):
        of_kind = [[part for part in side if (part.sheets > 1) == is_batch] for side in (left, right)]
        count = max(map(len, of_kind))
        padded = ([None] * (count - len(runs)) + runs for runs in of_kind)
        pairs += zip(*padded, strict=True)
    return pairs


def _run(left_run: RunPart | None, right_run: RunPart | None, left: Print, right: Print) -> Iterator[Row]:
    known = left_run or right_run
    assert known is not None, "a pair has at least one run"
    section = known.name or known.title or "a run"
    yield from _words(section, _of_run(left_run), _of_run(right_run))
    left_steps, right_steps = _by_name(left_run), _by_name(right_run)
    for name in dict.fromkeys([*left_steps, *right_steps]):
        pair = left_steps.get(name), right_steps.get(name)
        for row in pair:
            if row is not None:
                told = _light if isinstance(row, LightRow) else _bath
                yield from told(section, name, pair, _places(left_run, right_run, pair, left, right))
                break


def _of_run(part: RunPart | None) -> dict[str, str]:
    return {} if part is None else {"sequence": part.name or part.title or "", "when": when_text(part.when)}


def _by_name(part: RunPart | None) -> dict[str, BathRow | LightRow]:
    """Steps by name; one that was done again has its turn behind its name."""
    steps: dict[str, BathRow | LightRow] = {}
    for row in part.rows if part else []:
        turn = 1
        while (name := row.name if turn == 1 else f"{row.name}, {turn}") in steps:
            turn += 1
        steps[name] = row
    return steps


Pair = tuple[BathRow | LightRow | None, BathRow | LightRow | None]
Places = tuple[Arrangement | None, Arrangement | None]


def _places(
    left_run: RunPart | None, right_run: RunPart | None, pair: Pair, left: Print, right: Print
) -> Places:
    def place(side: Print, part: RunPart | None, row: BathRow | LightRow | None) -> Arrangement | None:
        return side.arrangements.get((part.run, row.step)) if part and row else None

    return place(left, left_run, pair[0]), place(right, right_run, pair[1])


def _bath(section: str, name: str, pair: Pair, places: Places) -> Iterator[Row]:
    baths = [row if isinstance(row, BathRow) else None for row in pair]
    planned = [row.planned_ms if row else None for row in baths]
    yield _lengths(section, f"{name}, planned", [_planned(row) for row in baths], planned, least_ms=1)
    real = [row.real_ms if row else None for row in baths]
    yield _lengths(section, f"{name}, given", [_real(row) for row in baths], real, least_ms=_TOLD_MS)


def _planned(row: BathRow | None) -> str:
    if row is None:
        return _NONE
    return bath_text(row.planned_ms) + (f" to {bath_text(row.most_ms)}" if row.most_ms is not None else "")


def _real(row: BathRow | None) -> str:
    if row is None:
        return _NONE
    return row.how if row.how in (_LEFT_OUT, _ASIDE) else bath_text(row.real_ms)


def _lengths(section: str, what: str, texts: list[str], ms: list[int | None], least_ms: int) -> Row:
    left_ms, right_ms = ms
    if left_ms is None or right_ms is None or _LEFT_OUT in texts:
        return Row(section, what, texts[0], texts[1], texts[0] != texts[1])
    difference_ms = right_ms - left_ms
    differs = abs(difference_ms) >= least_ms or (least_ms == 1 and texts[0] != texts[1])
    said = signed_text(difference_ms) if differs else ""
    return Row(section, what, texts[0], texts[1], differs, said, difference_ms=difference_ms)


def _light(section: str, name: str, pair: Pair, places: Places) -> Iterator[Row]:
    lights = [row if isinstance(row, LightRow) else None for row in pair]
    planned = [light_text(row.planned_ms) if row else _NONE for row in lights]
    given = [range_text(row.least_ms, row.most_ms) if row else _NONE for row in lights]
    yield _with_stops(section, f"{name}, planned", planned, _stops(lights, places, _planned_ms))
    yield _with_stops(section, f"{name}, given", given, _stops(lights, places, _given_ms))
    yield from _words(section, _place(name, lights[0], places[0]), _place(name, lights[1], places[1]))


def _planned_ms(row: LightRow) -> int | None:
    return row.planned_ms


def _given_ms(row: LightRow) -> int | None:
    return row.least_ms if row.least_ms == row.most_ms else None


def _stops(
    lights: list[LightRow | None], places: Places, ms_of: Callable[[LightRow], int | None]
) -> float | None:
    """What the paper got on the right from what it got on the left [stops]; None where nobody knows."""
    left_ms, right_ms = (ms_of(row) if row else None for row in lights)
    at, to = places
    if not left_ms or not right_ms or at is None or to is None:
        return None
    try:
        same_s = convert(left_ms / 1000, at, to).reciprocity_s
    except InputError:
        return None  # another lamp or filter: only a strip can tell
    return math.log2(right_ms / 1000 / same_s)


def _with_stops(section: str, what: str, texts: list[str], stops: float | None) -> Row:
    if stops is None:
        return Row(section, what, texts[0], texts[1], texts[0] != texts[1])
    differs = abs(stops) >= _TOLD_STOPS
    said = signed_stops(stops) if differs else "same light"
    shown = said if texts[0] != texts[1] else ""
    return Row(
        section, what, texts[0], texts[1], texts[0] != texts[1], shown, difference_stops=round(stops, 4)
    )


def _place(name: str, row: LightRow | None, at: Arrangement | None) -> dict[str, str]:
    if at is not None:
        lens = at.lens or "bare lamp"
        return {f"{name}, at": f"{at.lamp}, {lens}, {at}" + (f", filter {at.filter}" if at.filter else "")}
    if row is None or not row.setup:
        return {}
    words = [f"{row.setup[key]}" for key in ("lens", "stop") if key in row.setup]
    height = [f"{row.setup['height_mm']} mm"] if "height_mm" in row.setup else []
    return {f"{name}, at": " ".join([*words, *height])}
