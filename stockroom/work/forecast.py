"""What the coming weeks bring: the day on which each piece is to be used first, tested or stopped.

Storage is taken to go on like the same weeks of a year ago or, where those were not measured, like
the last month; nothing is cut, and nobody tests.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from stockroom.books.opening import Book
from stockroom.errors import Code, Refusal
from stockroom.film.verdict import Reason, Verdict
from stockroom.work.judging import Judged, View
from stockroom.work.look import piece, rack

USUAL_DAYS = 14
LOOKED_AHEAD = 500
"""Of so many pieces at most the coming days are told unasked: each change takes some looks to find."""
LONGEST_DAYS = 400


@dataclass(frozen=True, slots=True)
class Coming:
    """From that day on a piece has another verdict."""

    on: date
    before: Verdict
    then: Judged


@dataclass(frozen=True, slots=True)
class Forecast:
    """What changes within so many days of a view, the soonest first."""

    view: View
    days: int
    changes: tuple[Coming, ...]


def forecast(
    book: Book, *, now: datetime, today: date | None = None, days: int = USUAL_DAYS
) -> Forecast:
    """Every change of a verdict up to so many days ahead; from 1 to 400 days, else refused."""
    if not 1 <= days <= LONGEST_DAYS:
        raise Refusal(Code.BAD_SPAN, f"A forecast goes 1 to {LONGEST_DAYS} days ahead.")
    first = rack(book, now=now, today=today)
    seen = first.view
    last_day = seen.today + timedelta(days=days)
    last = {one.code: one for one in rack(book, now=now, today=last_day).pieces}
    changes: list[Coming] = []
    for one in first.pieces:
        then = last.get(one.code)
        if then is None or then.judgement.verdict is one.judgement.verdict:
            continue

        def on(day: date, code: str = one.code) -> Judged:
            return piece(book, code, now=now, today=day).judged

        changes += _steps(one, then, (seen.today, last_day), on)
    return Forecast(seen, days, tuple(sorted(changes, key=_soonest)))


def coming(book: Book, pieces: int, *, now: datetime) -> Forecast | None:
    """The usual forecast of a shop that has so many pieces; None of one that has too many."""
    return forecast(book, now=now) if pieces <= LOOKED_AHEAD else None


def reason_of(one: Judged) -> Reason:
    """Why a piece has its verdict: the first of the rules that ask for it."""
    verdict = one.judgement.verdict
    return next(reason for reason in one.judgement.reasons if reason.verdict is verdict)


def _steps(
    first: Judged, last: Judged, stretch: tuple[date, date], on: Callable[[date], Judged]
) -> Iterator[Coming]:
    """Each day on which the verdict becomes another one, on the way from the first to the last."""
    day, last_day = stretch
    before = first
    while before.judgement.verdict is not last.judgement.verdict:
        day, then = _first_other(before.judgement.verdict, day, last_day, on)
        yield Coming(day, before.judgement.verdict, then)
        before = then


def _first_other(
    verdict: Verdict, day: date, last_day: date, on: Callable[[date], Judged]
) -> tuple[date, Judged]:
    """The first day of a stretch whose verdict is another one; verdicts only get worse in it."""
    found = on(last_day)
    while (last_day - day).days > 1:
        middle = day + (last_day - day) // 2
        there = on(middle)
        if there.judgement.verdict is verdict:
            day = middle
        else:
            last_day, found = middle, there
    return last_day, found


def _soonest(one: Coming) -> tuple[date, str, str]:
    return one.on, one.then.standing.material.name.casefold(), one.then.code
