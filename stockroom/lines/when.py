"""What people type for a day, for an instant and for hours.

read_day        2025-03-14
read_hours      3h, 40d
read_instant    2025-03-14T16:30, 2025-03-14, 16:00, 4pm, yesterday 16:00, mon 9:15, yesterday
"""

import re
from datetime import UTC, date, datetime, time, timedelta
from math import ceil
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from stockroom.errors import Code, Refusal, clean_text
from stockroom.film.dates import parse_partial_date
from stockroom.units.typed import parse_duration

if TYPE_CHECKING:
    from stockroom.books.values import Shop

_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_CLOCK = re.compile(r"(\d{1,2})(?::(\d{2}))?(?:\s*([ap])m)?", re.ASCII)
_SHORTEST, _WEEK, _HALF_DAY = 3, 7, 12
_HOUR_S = 3_600


def read_day(text: str) -> date:
    """A calendar day, known to the day."""
    found = parse_partial_date(text)
    if not found.is_exact:
        raise Refusal(
            Code.BAD_DATE,
            f"'{clean_text(text, 40)}' names no single day: write it like 2025-03-14.",
        )
    return found.first


def read_hours(text: str) -> int:
    """Whole hours in a typed length of time; a part of one counts as one."""
    return ceil(parse_duration(text) / _HOUR_S)


def is_day(text: str) -> bool:
    """Whether a text names a day, without a time."""
    if _is_word(text.strip().lower()):
        return True
    try:
        parse_partial_date(text)
    except Refusal:
        return False
    return True


def read_instant(text: str, shop: "Shop", now: datetime) -> datetime:
    """An instant as ISO 8601 writes it, or as people say it; without an offset, on the shop's clock.

    A day alone is the instant at which that shop day begins; a time alone is on the running one.
    """
    said = text.strip().lower()
    word, _, rest = said.partition(" ")
    if not _is_word(word):
        word, rest = "", said
    if (clock := _clock(rest.strip())) is not None:
        return _spoken(word, clock, shop, now)
    if word and not rest:
        return shop.begin_of(_day(word, shop, now)).astimezone(UTC)
    if is_day(text):
        return shop.begin_of(read_day(text)).astimezone(UTC)
    try:
        found = datetime.fromisoformat(text.strip())
        parse_partial_date(found.date().isoformat())
    except (ValueError, Refusal):
        raise Refusal(
            Code.BAD_DATE,
            f"'{clean_text(text, 40)}' is no time: write 2025-03-14T16:30, yesterday 16:00, "
            "mon 9:15, or 2025-03-14 for the beginning of that day.",
        ) from None
    return found.astimezone(UTC) if found.tzinfo is not None else _on_the_clock(found, shop)


def _spoken(word: str, clock: time, shop: "Shop", now: datetime) -> datetime:
    """A time of the running day, or of the day that was named; what can be two days is refused."""
    day = _day(word, shop, now)
    is_of_the_night = clock.hour < shop.day_start_hour
    if is_of_the_night and word:
        raise Refusal(
            Code.BAD_DATE,
            f"{clock:%H:%M} is before the working day begins, so “{word}” can be read in two ways: "
            f"write the date, like {day}T{clock:%H:%M}.",
        )
    found = _on_the_clock(datetime.combine(day + timedelta(days=is_of_the_night), clock), shop)
    if found > now and _weekday(word) is not None:
        return _on_the_clock(datetime.combine(day - timedelta(days=_WEEK), clock), shop)
    if found > now:
        raise Refusal(
            Code.FUTURE, f"{clock:%H:%M} is still to come: name the day, like yesterday or a date."
        )
    return found


def _day(word: str, shop: "Shop", now: datetime) -> date:
    """The day a word means: the running one, the one before, or the newest of that weekday."""
    running = shop.day_of(now)
    if (weekday := _weekday(word)) is not None:
        return running - timedelta(days=(running.weekday() - weekday) % _WEEK)
    if word and running != shop.local(now).date():
        raise Refusal(
            Code.BAD_DATE,
            f"It is past midnight, and “{word}” can be read in two ways: write the date.",
        )
    return running - timedelta(days=word == "yesterday")


def _is_word(word: str) -> bool:
    return word in ("today", "yesterday") or _weekday(word) is not None


def _weekday(word: str) -> int | None:
    """The number of a weekday, named in full or by three letters or more."""
    if len(word) < _SHORTEST:
        return None
    return next((n for n, name in enumerate(_WEEKDAYS) if name.startswith(word)), None)


def _clock(text: str) -> time | None:
    """A time of day as people write it; None where it is none."""
    found = _CLOCK.fullmatch(text)
    if found is None or (found[2] is None and found[3] is None):
        return None
    hour, minute = int(found[1]), int(found[2] or 0)
    if found[3] is not None:
        if not 1 <= hour <= _HALF_DAY:
            return None
        hour = hour % _HALF_DAY + (_HALF_DAY if found[3] == "p" else 0)
    try:
        return time(hour, minute)
    except ValueError:
        return None


def _on_the_clock(wall: datetime, shop: "Shop") -> datetime:
    """What the shop's clock showed, as an instant; a time it jumped over is none."""
    found = wall.replace(tzinfo=ZoneInfo(shop.zone)).astimezone(UTC)
    if shop.local(found).replace(tzinfo=None, fold=0) != wall.replace(fold=0):
        raise Refusal(
            Code.BAD_DATE, f"{wall:%Y-%m-%d %H:%M} was skipped by the clock: give another time."
        )
    return found
