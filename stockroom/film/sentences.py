"""The sentence of an age beside its limit, made when somebody reads it: most are never read.

Age                    how old a piece is by one rule, and the words around the number
Compared               "at least 25 months, limit 24 (maker's sheet): adhesion trial"
counted(3, "day")      3 days
share_measured(0.912)  91 % measured
"""

from datetime import date
from math import floor
from typing import NamedTuple

from stockroom.film.dates import PartialDate, Span
from stockroom.film.limits import CountedFrom, Limit

DAYS_SAID_AS_DAYS = 120  # an older age is said in months


class Age(NamedTuple):
    """How old a piece is by one rule, and the words around the number."""

    days: int
    anchor: date  # where the limit is laid against the calendar
    lead: str = ""
    tail: str = ""
    grows: bool = True
    event: CountedFrom | None = None  # what it is counted from, and the date known of that,
    known: PartialDate | None = None  # where they are not quite what the maker asks for

    def around(self, old: str) -> str:
        """The words around the number."""
        assumed = f" (assumed: {self.event} {self.known})" if self.known else ""
        return f"{self.lead}{old}{self.tail}{assumed}"


class Compared(NamedTuple):
    """Age and limit in words, in one unit where that is possible: 25 months, limit 24."""

    age: Age
    months: int  # the age in whole months
    limit: Limit
    left: int
    then: str

    def __str__(self) -> str:
        old, limit = self._in_months() if self._is_in_months else self._in_days()
        return f"{self.age.around(old)}, limit {limit} ({self.limit.basis}){self.then}"

    @property
    def _is_in_months(self) -> bool:
        return self.age.days > DAYS_SAID_AS_DAYS and self.limit.span.months > 0

    def _in_days(self) -> tuple[str, str]:
        span = self.limit.span
        limit = str(span.days) if not span.months else _span_words(span)
        return counted(self.age.days, "day"), limit

    def _in_months(self) -> tuple[str, str]:
        span = self.limit.span
        old = counted(self.months, "month")
        if self.left < 0 and self.months == span.months:
            old += f" and {counted(-self.left, 'day')}"
        return old, _span_words(span) if span.days else str(span.months)


def _span_words(span: Span) -> str:
    parts = (
        span.months and counted(span.months, "month"),
        span.days and counted(span.days, "day"),
    )
    return " and ".join(part for part in parts if part)


def counted(number: int, noun: str) -> str:
    """So many of a thing."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def share_measured(coverage: float) -> str:
    """How much was measured, in whole per cent and never more than was."""
    return "all measured" if coverage == 1 else f"{floor(coverage * 100)} % measured"
