"""Moments as a person writes them: `2026-03-01`, `2026-03-01 18:30`, `18:30`, `20 min ago`, `now`."""

import calendar
import re
import time
from datetime import datetime, timedelta

from footlight.errors import InputError
from footlight.quantities.duration import parse_seconds
from footlight.quantities.number import as_text

_EARLIEST_YEAR = 1990
_DATE = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_CLOCK = re.compile(r"(\d{1,2}):(\d{2})")
_DAYS_BACK = {"today": 0, "yesterday": 1}
_EXAMPLES = "for example '2026-03-01 18:30', '18:30' (today), 'yesterday 21:15' or '20 min ago'"


def parse_moment(written: object, what: str, now_s: int, *, end: bool = False) -> int:
    """Seconds since 1970 of a moment in the computer's local time, not after `now_s` [s].

    A date without a time is its first second; with `end` its last, or now when that is earlier. Raises
    `InputError` for a date or time that there is not, and for one in the future.
    """
    text = as_text(written, what, "2026-03-01 18:30")
    if text == "now":
        return now_s
    if text.endswith(" ago"):
        return now_s - round(parse_seconds(text.removesuffix(" ago"), what))
    day_text, _, clock_text = text.replace("T", " ").partition(" ")
    if _CLOCK.fullmatch(day_text) and not clock_text:
        day_text, clock_text = "today", day_text
    day = _day(day_text, text, what, now_s)
    if not clock_text:
        return _day_alone_s(day, text, what, now_s, end)
    return _not_later(day + _clock(clock_text.strip(), text, what), text, what, now_s)


def _day_alone_s(day: datetime, text: str, what: str, now_s: int, end: bool) -> int:
    first_s = _not_later(day, text, what, now_s)
    return min(now_s, int((day + timedelta(days=1)).timestamp()) - 1) if end else first_s


def _day(word: str, text: str, what: str, now_s: int) -> datetime:
    if word in _DAYS_BACK:
        return _midnight(now_s) - timedelta(days=_DAYS_BACK[word])
    date = _DATE.fullmatch(word)
    if date is None:
        raise InputError(f"{what}: '{text}' is no date or time; write {_EXAMPLES}")
    year, month, day = (int(part) for part in date.groups())
    if year < _EARLIEST_YEAR or not 1 <= month <= 12:
        raise InputError(
            f"{what}: '{text}' is no date: allowed are years from {_EARLIEST_YEAR}, months 1 to 12"
        )
    days = calendar.monthrange(year, month)[1]
    if not 1 <= day <= days:
        raise InputError(f"{what}: '{text}' is no date: {calendar.month_name[month]} {year} has {days} days")
    return datetime(year, month, day)


def _midnight(now_s: int) -> datetime:
    return datetime.fromtimestamp(now_s).replace(hour=0, minute=0, second=0, microsecond=0)


def _clock(word: str, text: str, what: str) -> timedelta:
    found = _CLOCK.fullmatch(word)
    if found is None or int(found[1]) > 23 or int(found[2]) > 59:
        raise InputError(f"{what}: '{text}' has no time of day from 0:00 to 23:59; write {_EXAMPLES}")
    return timedelta(hours=int(found[1]), minutes=int(found[2]))


def _not_later(moment: datetime, text: str, what: str, now_s: int) -> int:
    seconds = int(moment.timestamp())
    if seconds > now_s:
        now = time.strftime("%Y-%m-%d %H:%M", time.localtime(now_s))
        raise InputError(f"{what}: '{text}' is in the future; it is {now} by this computer's clock")
    return seconds
