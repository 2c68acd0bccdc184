"""What the coming weeks bring: the day on which each piece is to be used first, tested or stopped.

Storage is taken to go on like the same weeks of a year ago or, where those were not measured, like
the last month; nothing is cut, and nobody tests.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from stockroom.books.opening import Book
from stockroom.books.values import Standing
from stockroom.errors import Code, Refusal
from stockroom.film.verdict import Reason, Verdict
from stockroom.work.judging import Judged, View, judged
from stockroom.work.look import on_hand
from stockroom.work.storage import Stored

USUAL_DAYS = 14
LOOKED_AHEAD = 5_000
"""Of so many pieces at most the coming days are told unasked: that takes twice as long as the rack."""
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
    with on_hand(book, now=now, today=today) as (seen, climates, found):

        def on(day: date, pieces: Iterable[Standing]) -> Iterator[Judged]:
            then = (
                seen
                if day == seen.today
                else replace(seen, today=day, moment=seen.shop.end_of(day))
            )
            return judged(pieces, then, Stored(climates, then).storage_of)

        last_day = seen.today + timedelta(days=days)
        first = tuple(on(seen.today, found))
        last = on(last_day, [one.standing for one in first])
        changes = _changes(_other(first, last), (seen.today, last_day), on)
        return Forecast(seen, days, tuple(sorted(changes, key=_soonest)))


def coming(book: Book, pieces: int, *, now: datetime) -> Forecast | None:
    """The usual forecast of a shop that has so many pieces; None of one that has too many."""
    return forecast(book, now=now) if pieces <= LOOKED_AHEAD else None


def reason_of(one: Judged) -> Reason:
    """Why a piece has its verdict: the first of the rules that ask for it."""
    verdict = one.judgement.verdict
    return next(reason for reason in one.judgement.reasons if reason.verdict is verdict)


Pairs = Sequence[tuple[Judged, Judged]]
"""Pieces on the first and on the last day of a stretch, where their verdicts differ."""


def _other(before: Iterable[Judged], after: Iterable[Judged]) -> Pairs:
    return [
        (one, other)
        for one, other in zip(before, after, strict=True)
        if one.judgement.verdict is not other.judgement.verdict
    ]


def _changes(
    pairs: Pairs,
    stretch: tuple[date, date],
    on: Callable[[date, Iterable[Standing]], Iterator[Judged]],
) -> Iterator[Coming]:
    """Each day on which a verdict becomes another one, by halves; verdicts only get worse in it."""
    day, last_day = stretch
    if not pairs:
        return
    if (last_day - day).days == 1:
        yield from (Coming(last_day, one.judgement.verdict, then) for one, then in pairs)
        return
    middle = day + (last_day - day) // 2
    there = list(on(middle, [one.standing for one, _ in pairs]))
    before, after = zip(*pairs, strict=True)
    yield from _changes(_other(before, there), (day, middle), on)
    yield from _changes(_other(there, after), (middle, last_day), on)


def _soonest(one: Coming) -> tuple[date, str, str]:
    return one.on, one.then.standing.material.name.casefold(), one.then.code
