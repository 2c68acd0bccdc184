"""What a shop draws of a film: how often, how much, and in which pattern.

Draw                       so much of a film on a day, for somebody; below zero: it came back
net(draws)                 what came back taken off, and one draw for each day and whom
demand_of(draws, days)     Demand: draws a day, mean and variance of a draw
pattern_of(weeks)          Pattern: smooth, erratic, intermittent, lumpy, dying, none
tsb(amounts, …)            what the next period is likely to ask, by decaying probability
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import StrEnum
from itertools import groupby
from statistics import fmean, pvariance, variance

WEEK = 7
_FEWEST_WEEKS = 4
_OFTEN = 1.32
"""Weeks from one with draws to the next; above it demand is not steady."""
_EVEN = 0.49
"""Squared coefficient of variation of the weeks with draws; above it sizes are not steady.
Both from Syntetos, Boylan and Croston, J. Oper. Res. Soc. 56, 2005, 495-503, from memory."""
_DYING = 0.25
"""Of the mean a week, what is likely now: our own choice; steady film gets there in some 18 empty weeks."""
_WEIGHT = 0.1


class Pattern(StrEnum):
    """How demand comes, by the week."""

    SMOOTH = "smooth"
    ERRATIC = "erratic"
    INTERMITTENT = "intermittent"
    LUMPY = "lumpy"
    DYING = "dying"
    NONE = "none"
    NEW = "new"
    """Too few weeks to tell."""


@dataclass(frozen=True, slots=True)
class Draw:
    """Film drawn on a day for somebody; a length below zero came back."""

    day: date
    length_m: float
    whom: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """Draws that come by chance (Poisson), and how long one is: mean in m, variance in m²."""

    draws_per_day: float
    draw_mean_m: float
    draw_variance_m2: float

    @property
    def per_day_m(self) -> float:
        """How much a day asks on average."""
        return self.draws_per_day * self.draw_mean_m

    @property
    def mean_square_m2(self) -> float:
        """The mean of the square of a draw."""
        return self.draw_mean_m**2 + self.draw_variance_m2


NOTHING = Demand(draws_per_day=0.0, draw_mean_m=0.0, draw_variance_m2=0.0)


def net(draws: Iterable[Draw]) -> tuple[Draw, ...]:
    """Draws by day, one for each day and whom; what came back is taken off the newest before it.

    What came back beyond all that was drawn for somebody was drawn before these draws begin, and
    is left out.
    """
    found: list[Draw] = []
    for _, theirs in groupby(
        sorted(draws, key=lambda one: (one.whom, one.day)), lambda one: one.whom
    ):
        kept: list[Draw] = []
        for one in theirs:
            if one.length_m > 0:
                _add(kept, one)
            else:
                _take_off(kept, -one.length_m)
        found += kept
    return tuple(sorted(found, key=lambda one: (one.day, one.whom)))


def _add(kept: list[Draw], one: Draw) -> None:
    if kept and kept[-1].day == one.day:
        kept[-1] = replace(kept[-1], length_m=kept[-1].length_m + one.length_m)
    else:
        kept.append(one)


def _take_off(kept: list[Draw], back_m: float) -> None:
    while kept and back_m > 0:
        newest = kept.pop()
        if newest.length_m > back_m:
            kept.append(replace(newest, length_m=newest.length_m - back_m))
        back_m -= newest.length_m


def demand_of(draws: Sequence[Draw], days: int) -> Demand:
    """The demand of net draws in so many days; a single draw is taken to vary as much as it is long."""
    lengths_m = [one.length_m for one in draws]
    if not lengths_m:
        return NOTHING
    mean_m = fmean(lengths_m)
    return Demand(
        draws_per_day=len(lengths_m) / days,
        draw_mean_m=mean_m,
        draw_variance_m2=variance(lengths_m) if len(lengths_m) > 1 else mean_m**2,
    )


def now_of(demand: Demand, weeks_m: Sequence[float]) -> Demand:
    """The demand as it is now: one that is dying comes as seldom as its last weeks say."""
    if pattern_of(weeks_m) is not Pattern.DYING:
        return demand
    return replace(demand, draws_per_day=demand.draws_per_day * _left(weeks_m))


def weekly_m(draws: Iterable[Draw], first: date, last: date) -> tuple[float, ...]:
    """What each whole week asked, the oldest first; the last one ends on the last day."""
    weeks = ((last - first).days + 1) // WEEK
    sums = [0.0] * weeks
    begins = last - timedelta(days=weeks * WEEK - 1)
    for one in draws:
        if begins <= one.day <= last:
            sums[(one.day - begins).days // WEEK] += one.length_m
    return tuple(sums)


def pattern_of(weeks_m: Sequence[float]) -> Pattern:
    """How demand comes, by how seldom it does and how much its sizes vary."""
    sizes = [one for one in weeks_m if one > 0]
    if len(weeks_m) < _FEWEST_WEEKS:
        return Pattern.NEW
    if not sizes:
        return Pattern.NONE
    if _left(weeks_m) < _DYING:
        return Pattern.DYING
    is_often = len(weeks_m) / len(sizes) < _OFTEN
    is_even = pvariance(sizes) / fmean(sizes) ** 2 < _EVEN
    if is_often:
        return Pattern.SMOOTH if is_even else Pattern.ERRATIC
    return Pattern.INTERMITTENT if is_even else Pattern.LUMPY


def _left(weeks_m: Sequence[float]) -> float:
    """What is likely now, over what was usual in all these weeks."""
    sizes = [one for one in weeks_m if one > 0]
    usual = len(sizes) / len(weeks_m), fmean(sizes)
    return tsb(weeks_m, _WEIGHT, _WEIGHT, usual) / fmean(weeks_m)


def tsb(
    amounts: Iterable[float],
    size_weight: float,
    chance_weight: float,
    begins: tuple[float, float] | None = None,
) -> float:
    """What the next period is likely to ask: a chance of any, decaying while there is none, times a size.

    Teunter, Syntetos and Babai, Eur. J. Oper. Res. 214, 2011, 606-615 (from memory). Chance and size
    begin as told, or each at the first value it sees.
    """
    chance, size = begins or (None, None)
    for amount in amounts:
        comes = float(amount > 0)
        chance = comes if chance is None else chance + chance_weight * (comes - chance)
        if comes:
            size = amount if size is None else size + size_weight * (amount - size)
    return (chance or 0.0) * (size or 0.0)
