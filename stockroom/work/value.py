"""Value: what the room is worth, and what became of it: used, wasted, written off, turned over.

Only what is ours counts.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from fractions import Fraction
from operator import attrgetter

from stockroom.books.catalog import jobs, materials
from stockroom.books.opening import Book
from stockroom.books.use import Change, Line, changes, last_of_each, lines
from stockroom.books.values import Job, Material
from stockroom.film.verdict import Verdict
from stockroom.plan.demand import WEEK
from stockroom.work.back import CHARGING
from stockroom.work.judging import Judged, View
from stockroom.work.look import rack
from stockroom.work.receive import OURS
from stockroom.work.use import NOTHING, TAKING, Amounts, taken
from stockroom.work.weekly import WEEKS, weekly
from stockroom.work.worth import Band, LotWorth, Slow, Worth, ages, lots, slow, verdicts, worth
from stockroom.work.zone_plot import Levels

_DAYS_A_YEAR = 365
_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Waste:
    """What jobs took of one film, or one job of all film."""

    of: Material | Job
    amounts: Amounts

    @property
    def share(self) -> Fraction | None:
        """How much of it was waste; None where nothing is used yet, as of a print that waits."""
        if self.amounts.used <= 0:
            return None
        return Fraction(self.amounts.wasted, self.amounts.for_jobs)


@dataclass(frozen=True, slots=True, kw_only=True)
class Turnover:
    """What was taken in some days, at cost, and what the room was worth in the mean over them."""

    taken_minor: int
    mean_minor: float
    days: float

    @property
    def times_a_year(self) -> float | None:
        """How often the room is used up in a year; None where nothing was in it."""
        if self.mean_minor <= 0 or self.days <= 0:
            return None
        return self.taken_minor / self.mean_minor * _DAYS_A_YEAR / self.days


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """Over how many days what was taken counts, and after how many stock is slow."""

    days: int = _DAYS_A_YEAR
    slow_days: int = 180


@dataclass(frozen=True, slots=True, kw_only=True)
class Value:
    """Everything there is to say of what the room is worth."""

    view: View
    wanted: Wanted
    pieces: tuple[Judged, ...]
    total: Worth
    lots: tuple[LotWorth, ...]
    ages: tuple[tuple[Band, Worth], ...]
    verdicts: tuple[tuple[Verdict, Worth], ...]
    slow: tuple[Slow, ...]
    taken: Amounts
    """The money of all that was taken; areas and numbers of goods together mean nothing."""
    film_waste: tuple[Waste, ...]
    job_waste: tuple[Waste, ...]
    turnover: Turnover
    since: date
    """The day on which the first week begins."""
    weeks: Levels
    """What the pieces that have a price were worth, week by week, in minor units."""


def value(
    book: Book, *, now: datetime, today: date | None = None, wanted: Wanted | None = None
) -> Value:
    """What is ours, wherever it is, on a day, and what was taken in the days before."""
    asked = wanted or Wanted()
    found = rack(book, now=now, today=today)
    seen = found.view
    pieces = tuple(one for one in found.pieces if one.standing.state.owner == OURS)
    begin = seen.shop.begin_of(seen.today - (asked.days - 1) * _DAY)
    with book.reading() as connection:
        by_id = materials(connection, seen.moment)
        by_code = {job.code: job for job in jobs(connection).values()}
        took = tuple(taken(lines(connection, TAKING, since=begin, until=seen.moment)))
        path = tuple(changes(connection, OURS, until=seen.moment))
        last = last_of_each(connection, CHARGING, OURS, until=seen.moment)
    for_jobs = [one for one in took if one[0].job is not None and one[0].form != "box"]
    changed = [
        (one.at, _worth_of(one, one.balance) - _worth_of(one, one.balance - one.delta))
        for one in sorted(path, key=attrgetter("at"))
    ]
    since = seen.today - (WEEKS * WEEK - 1) * _DAY
    money = sum((amounts for _, amounts in took), NOTHING)
    return Value(
        view=seen,
        wanted=asked,
        pieces=pieces,
        total=worth(pieces),
        lots=lots(pieces),
        ages=ages(pieces, seen.today),
        verdicts=verdicts(pieces),
        slow=slow(pieces, last, seen, asked.slow_days),
        taken=money,
        film_waste=_waste(for_jobs, lambda line: by_id[line.material_id]),
        job_waste=_waste(for_jobs, lambda line: by_code[line.job or ""]),
        turnover=_turnover(changed, begin, seen, money.cost_minor + money.without_job_minor),
        since=since,
        weeks=weekly(((seen.shop.day_of(at) - since).days // WEEK, by) for at, by in changed),
    )


def _waste(
    took: Iterable[tuple[Line, Amounts]], whose: Callable[[Line], Material | Job]
) -> tuple[Waste, ...]:
    """The waste of each, the most first; where more came back than was taken there is none."""
    owners: dict[int, Material | Job] = {}
    sums: dict[int, Amounts] = {}
    for line, amounts in took:
        of = whose(line)
        owners[of.id] = of
        sums[of.id] = sums.get(of.id, NOTHING) + amounts
    found = (Waste(owners[key], amounts) for key, amounts in sums.items() if amounts.for_jobs > 0)
    return tuple(sorted(found, key=lambda one: (-one.amounts.wasted, one.of.name)))


def _turnover(
    changed: Sequence[tuple[datetime, int]], begin: datetime, seen: View, taken_minor: int
) -> Turnover:
    """The mean is over time, from the first day on which something was there."""
    first = min((at for at, _ in changed), default=seen.moment)
    begins = max(begin, first)
    days = (seen.moment - begins) / _DAY
    if days <= 0:
        return Turnover(taken_minor=taken_minor, mean_minor=0.0, days=0.0)
    together = sum(by * ((seen.moment - max(at, begins)) / _DAY) for at, by in changed)
    return Turnover(taken_minor=taken_minor, mean_minor=together / days, days=days)


def _worth_of(change: Change, balance: int) -> int:
    return round(Fraction(change.cost_minor * balance, change.full))
