"""The instants of a logger's lines: what its clock showed, as seconds UTC.

    Instants(order, clock)   reads a day and a time of day, or a whole instant, line by line
      .at_s(day, time, …)    seconds UTC; Unread where the clock never showed that
      .unsure                the first line of an hour that the clock showed twice and the file once
    Epochs()                 the same for seconds or milliseconds since 1970
    CLOCK, CLOCK_ALONE       what a time of day looks like behind a day, and by itself

Days and times repeat from line to line, so each is read once and remembered. On a day on which
the clock is set back the order of the lines tells the first passing of an hour from the second; a
time the clock jumped over is no instant.
"""

import re
from datetime import UTC, date, datetime, time, timedelta, tzinfo

from stockroom.errors import clean_text
from stockroom.feeds.days import Order, read_day
from stockroom.feeds.reading import Unread, Wrong

_HALF = r"(?:\s?[AaPp]\.?\s?[Mm]\.?)?"
_AHEAD = r"(?:\s?(?:Z|UTC|GMT|[+-]\d{2}(?::?\d{2})?))?"
CLOCK = rf"\d{{1,2}}[:.h]\d{{2}}(?:[:.]\d{{2}}(?:[.,]\d+)?)?{_HALF}{_AHEAD}"
CLOCK_ALONE = (
    rf"\d{{1,2}}(?:[:h]\d{{2}}(?:[:.]\d{{2}}(?:[.,]\d+)?)?|\.\d{{2}}\.\d{{2}}){_HALF}{_AHEAD}"
)
"""A time of day without a day beside it; 21.50 is none, for it is a temperature as well."""

SECONDS = re.compile(r"\s*(1[0-9]{9}(?:[0-9]{3})?)(?:\.[0-9]+)?\s*")
"""Seconds since 1970, or milliseconds, of this century; one group."""

_CLOCK = re.compile(
    r"(\d{1,2})[:.h](\d{2})(?:[:.](\d{2})(?:[.,]\d+)?)?(?:\s?([ap])\.?\s?m\.?)?"
    r"(?:\s?(?:(z|utc|gmt)|([+-])(\d{2}):?(\d{2})?))?",
    re.ASCII | re.IGNORECASE,
)
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_HOURS, _HALF_DAY = range(25), 12
_DIGITS_OF_SECONDS = 10
_HOUR_S, _MINUTE_S = 3_600, 60


class _Days(dict[str, tuple[int, int | None]]):
    """Each day as seconds at its beginning, as if it were in UTC, and what its clock is ahead of UTC.

    The latter is None on a day on which that changes.
    """

    def __init__(self, order: Order, clock: tzinfo) -> None:
        super().__init__()
        self._order = order
        self._clock = clock

    def __missing__(self, text: str) -> tuple[int, int | None]:
        try:
            day = read_day(text.strip(), self._order)
        except ValueError:
            raise Unread(Wrong.NO_INSTANT, f"“{clean_text(text, 40)}” is no day") from None
        begin = datetime.combine(day, time(), UTC)
        ahead = {_ahead_s(begin + timedelta(hours=hour), self._clock) for hour in _HOURS}
        found = (_seconds(begin), ahead.pop() if len(ahead) == 1 else None)
        self[text] = found
        return found


class _Clocks(dict[str, tuple[int, int | None]]):
    """Each time of day as seconds, and what it says itself that it is ahead of UTC."""

    def __missing__(self, text: str) -> tuple[int, int | None]:
        found = self[text] = _read_clock(text.strip())
        return found


class Instants:
    """The instants of the lines of one file, in their order."""

    def __init__(self, order: Order, clock: tzinfo, *, is_newest_first: bool) -> None:
        self._days = _Days(order, clock)
        self._clocks = _Clocks()
        self._clock = clock
        self._is_newest_first = is_newest_first
        self.unsure: dict[date, int] = {}
        self._passed_twice: set[date] = set()

    def at_s(self, day: str, clock: str, before_s: int | None, line: int) -> int:
        """Seconds UTC of what the clock showed; `before_s` is the instant of the line before."""
        begin_s, ahead_s = self._days[day]
        second, told_s = self._clocks[clock]
        if told_s is not None:
            return begin_s + second - told_s
        if ahead_s is not None:
            return begin_s + second - ahead_s
        return self._on_a_day_of_change(begin_s + second, before_s, line)

    def _on_a_day_of_change(self, shown_s: int, before_s: int | None, line: int) -> int:
        shown = _EPOCH + timedelta(seconds=shown_s)
        first = shown_s - _ahead_s(shown, self._clock)
        second = shown_s - _ahead_s(shown, self._clock, fold=1)
        if first > second:
            raise Unread(
                Wrong.SKIPPED_HOUR,
                f"{shown:%Y-%m-%d %H:%M} was skipped when the clock was set forward: is the "
                "logger's clock never set?",
            )
        if first == second:
            return first
        expected, other = (second, first) if self._is_newest_first else (first, second)
        sign = -1 if self._is_newest_first else 1
        day = shown.date()
        if before_s is not None and (expected - before_s) * sign <= 0 < (other - before_s) * sign:
            self._passed_twice.add(day)
            self.unsure.pop(day, None)
            return other
        if day not in self._passed_twice:
            self.unsure.setdefault(day, line)
        return expected


class Epochs:
    """The instants of lines that count seconds since 1970."""

    def __init__(self) -> None:
        self.unsure: dict[date, int] = {}

    def at_s(self, day: str, clock: str, before_s: int | None, line: int) -> int:
        """Whole seconds UTC of a count; the rest is as for a clock, and not needed."""
        del clock, before_s, line
        found = SECONDS.fullmatch(day)
        if found is None:
            raise Unread(Wrong.NO_INSTANT, f"“{clean_text(day, 40)}” are no seconds since 1970")
        return int(found[1][:_DIGITS_OF_SECONDS])


def _ahead_s(shown: datetime, clock: tzinfo, *, fold: int = 0) -> int:
    """How far a clock is ahead of UTC when it shows a time."""
    ahead = shown.replace(tzinfo=clock, fold=fold).utcoffset()
    return 0 if ahead is None else round(ahead.total_seconds())


def _seconds(moment: datetime) -> int:
    return int((moment - _EPOCH).total_seconds())


def _read_clock(text: str) -> tuple[int, int | None]:
    found = _CLOCK.fullmatch(text)
    if found is None:
        raise Unread(Wrong.NO_INSTANT, f"“{clean_text(text, 40)}” is no time of day")
    hour, minute, second, half, utc, sign, hours, minutes = found.groups()
    try:
        shown = time(_hour(int(hour), half), int(minute), int(second or 0))
    except ValueError:
        raise Unread(Wrong.NO_INSTANT, f"“{clean_text(text, 40)}” is no time of day") from None
    ahead_s: int | None = 0 if utc else None
    if sign:
        ahead_s = int(sign + "1") * (int(hours) * _HOUR_S + int(minutes or 0) * _MINUTE_S)
    return shown.hour * _HOUR_S + shown.minute * _MINUTE_S + shown.second, ahead_s


def _hour(hour: int, half: str | None) -> int:
    """The hour of 24; ValueError where a half of the day has no such hour."""
    if half is None:
        return hour
    if not 1 <= hour <= _HALF_DAY:
        raise ValueError(hour)
    return hour % _HALF_DAY + (_HALF_DAY if half.lower() == "p" else 0)
