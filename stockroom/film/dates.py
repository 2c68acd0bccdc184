"""Dates known in part, and spans of time as limits name them.

PartialDate            2025-03-14, 2025-03 or 2025
  .first, .last        the first and the last day it can mean
  .is_exact            the day is known
parse_partial_date     Refusal BAD_DATE
Span                   months and days
  .after(start)        31 January and 1 month is the last day of February
  .days_from(start)    how many days that is from there
whole_months           how many have passed between two days
parse_span             24mo, 24 months, 90d, 6w, 2y, 1y 6mo; Refusal BAD_SPAN
"""

import re
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from typing import Self

from dateutil.relativedelta import relativedelta

from stockroom.errors import Code, Refusal, clean_text

_LAST_MONTH = 12
_EARLIEST_YEAR, _LATEST_YEAR = 1950, 2199  # outside: a slip of the finger, not film


@dataclass(frozen=True, slots=True)
class PartialDate:
    """A date of which the day, or the month too, may be unknown."""

    year: int
    month: int | None = None
    day: int | None = None

    def __post_init__(self) -> None:
        if self.month is None and self.day is not None:
            raise ValueError("a day needs its month")
        date(self.year, _or_first(self.month), _or_first(self.day))

    @classmethod
    def of(cls, day: date) -> Self:
        """A day that is known."""
        return cls(day.year, day.month, day.day)

    @property
    def is_exact(self) -> bool:
        """Whether the day is known."""
        return self.day is not None

    @property
    def first(self) -> date:
        """The first day it can mean."""
        return date(self.year, _or_first(self.month), _or_first(self.day))

    @property
    def last(self) -> date:
        """The last day it can mean."""
        month = self.month or _LAST_MONTH
        if self.day is not None:
            return date(self.year, month, self.day)
        return date(self.year, month, 1) + relativedelta(day=31)

    def __str__(self) -> str:
        parts = (
            f"{self.year:04}",
            self.month and f"{self.month:02}",
            self.day and f"{self.day:02}",
        )
        return "-".join(part for part in parts if part)


def _or_first(part: int | None) -> int:
    return 1 if part is None else part


_DATE = re.compile(r"(\d{4})(?:-(\d{2})(?:-(\d{2}))?)?", re.ASCII)


def parse_partial_date(text: str) -> PartialDate:
    """A calendar date as ISO 8601 writes it, the day or the month left out when unknown."""
    if (match := _DATE.fullmatch(text.strip())) is not None:
        year, month, day = (None if part is None else int(part) for part in match.groups())
        try:
            if year is not None and _EARLIEST_YEAR <= year <= _LATEST_YEAR:
                return PartialDate(year, month, day)
        except ValueError:
            pass
    raise Refusal(
        Code.BAD_DATE,
        f"'{clean_text(text, 40)}' is no date: write 2025-03-14, or 2025-03 or 2025 for one known in part.",
    )


@dataclass(frozen=True, slots=True)
class Span:
    """A length of calendar time."""

    months: int = 0
    days: int = 0

    def __post_init__(self) -> None:
        if self.months < 0 or self.days < 0 or not (self.months or self.days):
            raise ValueError("a span is longer than nothing")

    def after(self, start: date) -> date:
        """The day this long after a start; a month that lacks the day ends on its last."""
        return _after(start, self.months, self.days)

    def days_from(self, start: date) -> int:
        """How many days it is, counted from a start."""
        return (self.after(start) - start).days

    def __str__(self) -> str:
        parts = (self.months and f"{self.months}mo", self.days and f"{self.days}d")
        return " ".join(part for part in parts if part)


@lru_cache(maxsize=65_536)
def _after(start: date, months: int, days: int) -> date:
    return start + relativedelta(months=months, days=days)


def whole_months(start: date, end: date) -> int:
    """How many calendar months have passed; one that lacks the day ends on its last."""
    months = (end.year - start.year) * _LAST_MONTH + end.month - start.month
    is_last_day = (end + timedelta(days=1)).month != end.month
    return months - 1 if end.day < start.day and not is_last_day else months


_UNITS = {
    "d": (0, 1), "day": (0, 1), "days": (0, 1),
    "w": (0, 7), "week": (0, 7), "weeks": (0, 7),
    "mo": (1, 0), "month": (1, 0), "months": (1, 0),
    "y": (12, 0), "year": (12, 0), "years": (12, 0),
}  # fmt: skip
_PART = r"(\d{1,5})\s*([a-z]+)"
_PARTS = re.compile(rf"\s*{_PART}(?:[\s,]*{_PART})*\s*", re.ASCII)
_LONGEST_DAYS = 36_525  # a century


def parse_span(text: str) -> Span:
    """A span as a maker's sheet or a person writes it."""
    lowered = text.lower()
    parts = re.findall(_PART, lowered, re.ASCII) if _PARTS.fullmatch(lowered[:40]) else []
    if parts and all(unit in _UNITS for _, unit in parts):
        months = sum(int(number) * _UNITS[unit][0] for number, unit in parts)
        days = sum(int(number) * _UNITS[unit][1] for number, unit in parts)
        if 0 < months * 30 + days <= _LONGEST_DAYS:
            return Span(months, days)
    raise Refusal(
        Code.BAD_SPAN,
        f"'{clean_text(text, 40)}' is no span of time: write 24mo, 90d, 6w or 2y, more than none.",
    )
