"""Moments as people say them: `now`, `20 min ago`, `18:30`, `yesterday 18:30`, `2026-11-24 18:30`."""

import re
import time

from footlight.errors import InputError
from footlight.quantities.duration import parse_seconds
from footlight.quantities.number import as_text

_EXAMPLES = "for example 'now', '20 min ago', '18:30', 'yesterday 18:30' or '2026-11-24 18:30'"
_CLOCK = r"(\d{1,2}):(\d\d)"
_DATED = r"(\d{4})-(\d\d)-(\d\d)"
_EARLIEST_S = 315_532_800  # 1980: before that no darkroom had a computer
_DAY_S = 86_400


def parse_moment(written: object, what: str, now_s: int) -> int:
    """A moment that is past [s since 1970, UTC]; clock times are those of the computer's place.

    now_s: the present [s since 1970]. Raises `InputError` for what is no moment, and for one still to come.
    """
    text = as_text(written, what, "18:30").lower()
    moment_s = _moment_s(text, what, now_s)
    if moment_s > now_s:
        hint = "; write 'yesterday' or the date before it" if re.fullmatch(_CLOCK, text) else ""
        raise InputError(f"{what}: '{text}' is still to come{hint}")
    if moment_s < _EARLIEST_S:
        raise InputError(f"{what}: '{text}' is before 1980; write {_EXAMPLES}")
    return moment_s


def _moment_s(text: str, what: str, now_s: int) -> int:
    if text == "now":
        return now_s
    if text.endswith(" ago"):
        return now_s - round(parse_seconds(text.removesuffix(" ago"), what, most_s=365 * _DAY_S))
    today = time.localtime(now_s)[:3]
    if clock := re.fullmatch(_CLOCK, text):
        return _at(today, clock[1], clock[2], text, what)
    if clock := re.fullmatch(rf"yesterday {_CLOCK}", text):
        return _at((*today[:2], today[2] - 1), clock[1], clock[2], text, what)
    if dated := re.fullmatch(rf"{_DATED}[ t]{_CLOCK}", text):
        return _on(dated, text, what)
    raise InputError(f"{what}: '{text}' is no moment; write {_EXAMPLES}")


def _on(dated: re.Match[str], text: str, what: str) -> int:
    day = (int(dated[1]), int(dated[2]), int(dated[3]))
    moment_s = _at(day, dated[4], dated[5], text, what)
    # `mktime` makes the 1st of March of the 30th of February.
    if time.localtime(moment_s)[:3] != day:
        raise InputError(f"{what}: there is no such day as in '{text}'")
    return moment_s


def _at(day: tuple[int, int, int], hours: str, minutes: str, text: str, what: str) -> int:
    if int(hours) > 23 or int(minutes) > 59:
        raise InputError(f"{what}: there is no such time of day as in '{text}'")
    try:
        return int(time.mktime((*day, int(hours), int(minutes), 0, 0, 0, -1)))
    except (OverflowError, ValueError):
        raise InputError(f"{what}: '{text}' is no moment; write {_EXAMPLES}") from None
