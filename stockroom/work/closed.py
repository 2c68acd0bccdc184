"""The days a shop is closed, and what becomes of the film meanwhile."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from stockroom.books.calendar import ClosedDays, add_closed_days, closed_days, next_open_day
from stockroom.books.catalog import shop
from stockroom.books.opening import Book
from stockroom.books.values import Asked
from stockroom.errors import Code, Refusal
from stockroom.work.judging import Judged, View, view
from stockroom.work.look import rack

_LONGEST = timedelta(days=366)


@dataclass(frozen=True, slots=True, kw_only=True)
class CloseDays(Asked):
    """The shop is closed on these days, both ends among them; or, with `opens`, it is not after all."""

    first: date
    last: date
    why: str
    opens: bool = False


@dataclass(frozen=True, slots=True)
class Change:
    """A piece whose verdict is another one when somebody works again."""

    before: Judged
    after: Judged


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed:
    """A stretch of closed days that is not over, the first open day after it, what changes meanwhile."""

    days: ClosedDays
    opens_on: date
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True)
class Calendar:
    """The closed days that are running or to come."""

    view: View
    closed: tuple[Closed, ...]


def close_days(request: CloseDays, *, book: Book, now: datetime) -> ClosedDays:
    """Write a stretch of closed days into the calendar, or take one out that is in it."""
    days = ClosedDays(request.first, request.last, request.why)
    if days.last < days.first or days.last - days.first > _LONGEST:
        raise Refusal(
            Code.BAD_DATE, "Closed days run from a day to the same or a later one, a year at most."
        )
    with book.transaction() as connection:
        is_known = any(
            (one.first, one.last) == (days.first, days.last) for one in closed_days(connection, now)
        )
        if is_known != request.opens:
            raise Refusal(
                Code.ALREADY_THERE,
                "These days are not closed: name a stretch as `closed list` shows it."
                if request.opens
                else "These days are closed already.",
            )
        add_closed_days(connection, days, operator=request.operator, opens=request.opens, now=now)
    return days


def calendar(book: Book, *, now: datetime, today: date | None = None) -> Calendar:
    """Each stretch that is not over, with the verdicts that change while nobody works."""
    with book.reading() as connection:
        seen = view(shop(connection, now), now=now, today=today)
        known = closed_days(connection, now)
    coming = (days for days in known if days.last >= seen.today)
    found = (
        Closed(
            days=days,
            opens_on=(opens_on := next_open_day(known, days.last)),
            changes=_changes(book, max(days.first, seen.today), opens_on, now),
        )
        for days in coming
    )
    return Calendar(seen, tuple(found))


def _changes(book: Book, first: date, opens_on: date, now: datetime) -> tuple[Change, ...]:
    """What the verdicts are on the first closed day and on the next open one, where they differ."""
    before = rack(book, now=now, today=first).pieces
    after = {one.code: one for one in rack(book, now=now, today=opens_on).pieces}
    return tuple(
        Change(one, after[one.code])
        for one in before
        if one.code in after and after[one.code].judgement.verdict is not one.judgement.verdict
    )
