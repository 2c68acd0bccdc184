"""What pieces are worth, at what they cost: all of them, by lot, by age, by verdict; and what lies still.

worth(pieces)              Worth; pieces without a price are counted and not in the sum
lots, ages, verdicts       the same for each lot, each band of age, each verdict that is there
slow(pieces, last, …)      materials of which nothing was taken for long
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from enum import StrEnum
from typing import TypeVar

from stockroom.books.fold import State
from stockroom.books.values import Material
from stockroom.film.dates import parse_partial_date, whole_months
from stockroom.film.verdict import Verdict
from stockroom.work.charging import cost_between
from stockroom.work.judging import Judged, View
from stockroom.work.reserved import reserved

K = TypeVar("K")


class Band(StrEnum):
    """How old film or goods are; our own choice of steps."""

    YOUNG = "under 6 months"
    HALF_YEAR = "6 to 12 months"
    YEAR = "12 to 18 months"
    OLDER = "18 to 24 months"
    OLD = "over 24 months"
    UNKNOWN = "unknown"


_FROM_MONTHS = ((24, Band.OLD), (18, Band.OLDER), (12, Band.YEAR), (6, Band.HALF_YEAR))


@dataclass(frozen=True, slots=True, kw_only=True)
class Worth:
    """So many pieces, what those with a price are worth, and how many have none."""

    pieces: int
    value_minor: int
    unpriced: int


@dataclass(frozen=True, slots=True)
class LotWorth:
    """What there is of one lot of a material; a lot may be unknown."""

    material: Material
    lot: str | None
    worth: Worth


@dataclass(frozen=True, slots=True)
class Slow:
    """A material of which nothing was taken since a day, and what of it serves no job."""

    material: Material
    since: date
    worth: Worth


def worth(pieces: Iterable[Judged]) -> Worth:
    """What pieces are worth together."""
    states = [one.standing.state for one in pieces]
    return Worth(
        pieces=len(states),
        value_minor=sum(cost_between(state, state.balance, 0) for state in states),
        unpriced=sum(state.cost_minor is None for state in states),
    )


def lots(pieces: Iterable[Judged]) -> tuple[LotWorth, ...]:
    """Each lot of each material, by their names."""
    found = _grouped(
        pieces, lambda one: (one.standing.material.name.casefold(), one.standing.state.lot or "")
    )
    return tuple(
        LotWorth(those[0].standing.material, those[0].standing.state.lot, worth(those))
        for _, those in sorted(found.items())
    )


def ages(pieces: Iterable[Judged], today: date) -> tuple[tuple[Band, Worth], ...]:
    """Each band of age that is there, the youngest first."""
    found = _grouped(pieces, lambda one: band_of(one, today))
    return tuple((band, worth(found[band])) for band in Band if band in found)


def band_of(one: Judged, today: date) -> Band:
    """The band of a piece, by its shelf age; what is at least so old is taken to be so old."""
    days = one.judgement.shelf_days
    if days is None:
        return Band.UNKNOWN
    months = whole_months(today - timedelta(days=days), today)
    return next((band for least, band in _FROM_MONTHS if months >= least), Band.YOUNG)


def verdicts(pieces: Iterable[Judged]) -> tuple[tuple[Verdict, Worth], ...]:
    """Each verdict that is there, the best first."""
    found = _grouped(pieces, lambda one: one.judgement.verdict)
    return tuple((one, worth(found[one])) for one in Verdict if one in found)


def slow(
    pieces: Iterable[Judged], last: Mapping[int, datetime], seen: View, days: int
) -> tuple[Slow, ...]:
    """Materials of which nothing was taken in so many days, the most worth first.

    What never was taken counts from its oldest receipt. What serves a job, or is kept for jobs whole,
    waits for them.
    """
    free = (one for one in pieces if _is_free(one.standing.state, seen.today))
    found = _grouped(free, lambda one: one.standing.material.id)
    still = (
        Slow(those[0].standing.material, _still_since(those, last.get(of), seen), worth(those))
        for of, those in found.items()
    )
    slowest = [one for one in still if (seen.today - one.since).days >= days]
    return tuple(sorted(slowest, key=lambda one: (-one.worth.value_minor, one.material.name)))


def _is_free(state: State, today: date) -> bool:
    kept = sum(one.along_nm for one in reserved(state, today))
    return state.job_id is None and kept < state.balance


def _still_since(pieces: Iterable[Judged], last: datetime | None, seen: View) -> date:
    """The day something was last taken of a material, or the day its oldest piece came."""
    if last is not None:
        return seen.shop.day_of(last)
    return min(parse_partial_date(one.standing.state.received).first for one in pieces)


def _grouped(pieces: Iterable[Judged], key: Callable[[Judged], K]) -> dict[K, list[Judged]]:
    found: dict[K, list[Judged]] = {}
    for one in pieces:
        found.setdefault(key(one), []).append(one)
    return found
