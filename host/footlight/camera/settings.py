"""The printer's own camera file: lenses, subject lights and filters, from a TOML table, checked."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeVar

from footlight.camera.lens import USUAL_STOPS, Lens
from footlight.camera.subject import Condition
from footlight.errors import InputError
from footlight.quantities import FStop, parse_length_mm, parse_number, parse_stop, parse_stops
from footlight.quantities.table import Where, choice, inside, keys_of, suggestion

Entry = TypeVar("Entry")
_KEYS = ("lens", "light", "filter")
_LENS_KEYS = ("focal", "stops", "draws", "pupil_ratio", "openings")
_CONDITION_KEYS = ("more", "contrast", "known", "off")
_MOST_ENTRIES = 100


@dataclass(frozen=True)
class Settings:
    """What a camera file holds, each by its name."""

    lenses: Mapping[str, Lens] = field(default_factory=dict)
    lights: Mapping[str, Condition] = field(default_factory=dict)
    filters: Mapping[str, Condition] = field(default_factory=dict)

    def lens(self, name: str) -> Lens:
        """The lens of that name; raises `InputError` with the nearest."""
        return _named(self.lenses, name, "lens")

    def light(self, name: str) -> Condition:
        """The subject light of that name; raises `InputError` with the nearest."""
        return _named(self.lights, name, "light")

    def filter(self, name: str) -> Condition:
        """The camera filter of that name; raises `InputError` with the nearest."""
        return _named(self.filters, name, "filter")


def settings_of(table: object, where: Where) -> Settings:
    """A camera file's table, checked. Raises `InputError`, one line, naming the key."""
    keys = keys_of(table, _KEYS, where)
    return Settings(
        _each(keys, "lens", where, lens_of),
        _each(keys, "light", where, lambda name, part, at: _condition(name, part, at, "light")),
        _each(keys, "filter", where, lambda name, part, at: _condition(name, part, at, "filter")),
    )


def lens_of(name: str, table: object, where: Where) -> Lens:
    """One lens from its table."""
    keys = keys_of(table, _LENS_KEYS, where, {"focal": '"150 mm"'})
    stops = _stops(keys.get("stops", list(USUAL_STOPS)), where("stops"))
    draws = _list(keys.get("draws", []), where("draws"))
    return Lens(
        name=name,
        focal_mm=parse_length_mm(keys["focal"], where("focal")),
        stops=stops,
        draws_mm=tuple(parse_length_mm(draw, where("draws")) for draw in draws),
        pupil_ratio=parse_number(keys.get("pupil_ratio", 1.0), where("pupil_ratio"), least=0.2, most=5),
        measured_mm=_openings(keys.get("openings", {}), where),
    )


def _each(
    keys: dict[str, Any], kind: str, where: Where, read: Callable[[str, object, Where], Entry]
) -> dict[str, Entry]:
    tables = keys.get(kind, {})
    if not isinstance(tables, dict) or len(tables) > _MOST_ENTRIES:
        raise InputError(f'{where(kind)}: write each under its own name, for example [{kind}."name"]')
    return {name: read(name, part, inside(where, f"{kind} '{name}'")) for name, part in tables.items()}


def _condition(name: str, table: object, where: Where, kind: str) -> Condition:
    keys = keys_of(table, _CONDITION_KEYS, where, {"more": '"1 1/3 stop"'})
    off = keys.get("off")
    return Condition(
        name=name,
        more_stops=parse_stops(keys["more"], where("more")),
        range_r=parse_number(keys.get("contrast", 0), where("contrast"), least=-220, most=220),
        measured=choice(keys.get("known", "stated"), ("stated", "measured"), where("known")) == "measured",
        off_stops=parse_stops(off, where("off"), least=0, most=3) if off is not None else None,
        kind=kind,
    )


def _stops(written: object, what: str) -> tuple[FStop, ...]:
    stops = tuple(parse_stop(stop, what) for stop in _list(written, what))
    if len(set(stops)) != len(stops):
        raise InputError(f"{what}: a stop is written twice; write each mark once")
    return stops


def _openings(written: object, where: Where) -> tuple[tuple[FStop, float], ...]:
    if not isinstance(written, dict):
        raise InputError(f'{where("openings")}: write mark and diameter, for example {{ "f/8" = "18.9 mm" }}')
    return tuple(
        (parse_stop(mark, where("openings")), parse_length_mm(size, where(f"openings: {mark}")))
        for mark, size in written.items()
    )


def _list(written: object, what: str) -> list[Any]:
    if not isinstance(written, list):
        raise InputError(f'{what}: write a list in brackets, for example ["f/8", "f/11"]')
    return written


def _named(entries: Mapping[str, Entry], name: str, kind: str) -> Entry:
    if name in entries:
        return entries[name]
    if not entries:
        raise InputError(f"{kind} '{name}': there is none in the camera file; write [{kind}.\"{name}\"]")
    raise InputError(f"{kind} '{name}' is not in the camera file{suggestion(name, list(entries))}")
