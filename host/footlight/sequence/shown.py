"""Text for the controller's display: six characters of its own font, in capitals."""

from footlight.errors import InputError
from footlight.quantities import FStop
from footlight.sequence.errors import short
from footlight_core.program import DISPLAY_COLUMNS, SHOWN_CHARS, SHOWN_SET, shown_columns

CHARACTERS = "A to Z, 0 to 9, blank and ! + - . / : < = > ?"
_MARK_STOPS = 0.01


def fits(text: str, most: int = SHOWN_CHARS) -> bool:
    """Can the display hold this text?"""
    known = all(char in SHOWN_SET for char in text)
    return 0 < len(text) <= most and known and shown_columns(text) <= DISPLAY_COLUMNS


def shown(text: str, what: str, most: int = SHOWN_CHARS) -> str:
    """`text` in capitals, as the display shows it; raises InputError where it cannot."""
    capitals = text.strip().upper()
    if fits(capitals, most):
        return capitals
    if 0 < len(capitals) <= most and all(char in SHOWN_SET for char in capitals):
        raise InputError(f"{what}: '{short(text)}' is too wide for the display; use fewer of M, V and W")
    raise InputError(
        f"{what}: '{short(text)}' does not fit the display; allowed is 1 to {most} characters of {CHARACTERS}"
    )


def from_name(name: str, what: str, key: str = "show") -> str:
    """A name as the display shows it; where it does not fit, an error that asks for `show`."""
    capitals = name.strip().upper()
    if fits(capitals):
        return capitals
    raise InputError(
        f"{what}: the display cannot hold '{short(name)}' ({SHOWN_CHARS} characters of {CHARACTERS});"
        f' add for example {key} = "{_stub(capitals)}"'
    )


def _stub(capitals: str) -> str:
    """Something that fits, to start from."""
    known = "".join(char for char in capitals if char in SHOWN_SET)
    for length in range(SHOWN_CHARS, 0, -1):
        if fits(known[:length].strip()):
            return known[:length].strip()
    return "STEP"


def shown_stop(stop: FStop | None) -> str:
    """A stop as it is set on the lens: `F/11`, `11+1/3`, a mark where one stands there; '' for no lens."""
    if stop is None:
        return ""
    mark = FStop.nearest(stop.exact_value)
    at_mark = abs(stop.stops_to(mark)) < _MARK_STOPS
    forms = [
        f"F/{stop.marked:g}" if not stop.offset_stops else "",
        str(stop).removeprefix("f/").replace(" ", ""),
        f"F/{mark.marked:g}" if at_mark else "",
        f"F/{stop.exact_value:.1f}",
        f"F{stop.exact_value:.1f}",
    ]
    return next(form for form in forms if fits(form.upper()))


def shown_lens(name: str | None, focal_mm: float | None) -> str:
    """A lens as the display shows it: its name if that fits, else its focal length, else ''."""
    if name is None:
        return ""
    capitals = name.replace(" ", "").upper()
    focal = f"{focal_mm:.0f}MM" if focal_mm else ""
    return next((form for form in (capitals, focal) if fits(form)), "")
