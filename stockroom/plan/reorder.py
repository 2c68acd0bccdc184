"""When to order a film and how many rolls: enough for the time until they come, none too old to use.

reorder_point_m(demand, supply)        order when what there is and what comes is below it
usable_m(demand, supply, days)         what is used until then even if demand is low
order(demand, supply, goods, …)        Order: how many rolls, why, and for how long
most_rolls(demand, supply, goods, …)   the most that are used before their limit

Demand is compound Poisson over lead time and review, with the undershoot of a draw that jumps below
the point, spread like a gamma distribution: of the ways that were tried on a simulated shop, the
one that keeps the promised service at few draws a month.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from math import ceil, floor

from stockroom.film.roots import crossing
from stockroom.plan.demand import Demand
from stockroom.plan.gamma import Spread, quantile
from stockroom.plan.quantity import Break, Year, cheapest_rolls

_LOW = 0.1
"""The chance that demand is lower than what an order counts on."""
_DAYS_A_YEAR = 365.0
_A_DAY = 0.5
_FOREVER_DAYS = 36_525.0
_MOST_ROLLS = 1_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """Days from the need to film on the shelf, review among them, and the service that is promised.

    The variance is in days²; the service is the chance that nothing runs out before film comes.
    """

    days: float
    variance_days2: float = 0.0
    service: float = 0.95


@dataclass(frozen=True, slots=True, kw_only=True)
class Prices:
    """What an order costs beside its film, the prices of a metre by number of rolls, and keeping it."""

    order_cost: float
    holding_rate: float
    breaks: Sequence[Break]


@dataclass(frozen=True, slots=True, kw_only=True)
class Goods:
    """How a film is bought: rolls of a length, in packs, at least so many; and how long it keeps."""

    roll_m: float
    pack: int = 1
    least: int = 1
    life_days: float | None = None
    """From the day it comes to its storage limit; None: it has none."""
    prices: Prices | None = None


class Why(StrEnum):
    """What an order rests on."""

    ENOUGH = "enough"
    """Nothing: what there is and what comes reaches the point."""
    BELOW = "below"
    """The fewest that lift it to the point."""
    CHEAPEST = "cheapest"
    """The number that costs least a year."""
    LIMIT = "limit"
    """As many as are used before their storage limit; more were wanted."""
    JOBS = "jobs"
    """As many as open jobs need; more would not be used before their limit, or nothing else is drawn."""
    OUTLIVES = "outlives"
    """Nothing: even the smallest order would not be used before its limit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """How many rolls to order, and why."""

    reorder_point_m: float
    rolls: int
    why: Why
    covers_days: float | None
    """How long all there is then lasts at the mean demand; None: nothing is drawn."""
    more_over_days: float | None
    """How long past its limit the last of one more pack would be; None where it would not."""


def during(demand: Demand, days: float, variance_days2: float = 0.0) -> Spread:
    """What is drawn in a time that is not certain itself, in m: the moments of a compound Poisson sum."""
    return Spread(
        demand.per_day_m * days,
        demand.draws_per_day * days * demand.mean_square_m2 + demand.per_day_m**2 * variance_days2,
    )


def reorder_point_m(demand: Demand, supply: Supply) -> float:
    """Order when what there is, and what comes, is below it; 0 where nothing is drawn."""
    if not demand.per_day_m:
        return 0.0
    lead = during(demand, supply.days, supply.variance_days2)
    undershoot_m = demand.mean_square_m2 / (2 * demand.draw_mean_m)
    return quantile(
        supply.service,
        Spread(lead.mean + undershoot_m, lead.variance + demand.mean_square_m2 / 3),
    )


def usable_m(demand: Demand, supply: Supply, days: float) -> float:
    """What is used in the days after film comes, and until then, with nine chances in ten."""
    return quantile(_LOW, during(demand, supply.days + days, supply.variance_days2))


def order(demand: Demand, supply: Supply, goods: Goods, *, position_m: float) -> Order:
    """What to order, where what is usable, on order and not reserved adds up to a position."""
    point_m = reorder_point_m(demand, supply)
    rolls, why = _rolls(demand, supply, goods, position_m, point_m)
    held_m = position_m + rolls * goods.roll_m
    return Order(
        reorder_point_m=point_m,
        rolls=rolls,
        why=why,
        covers_days=held_m / demand.per_day_m if demand.per_day_m else None,
        more_over_days=_over_days(demand, supply, goods, held_m + goods.pack * goods.roll_m),
    )


def _rolls(
    demand: Demand, supply: Supply, goods: Goods, position_m: float, point_m: float
) -> tuple[int, Why]:
    if position_m >= point_m:
        return 0, Why.ENOUGH
    needed = _in_packs(max(goods.least, ceil((point_m - position_m) / goods.roll_m)), goods.pack)
    smallest = _in_packs(goods.least, goods.pack)
    most = most_rolls(demand, supply, goods, position_m)
    for_jobs = _for_jobs(goods, position_m)
    if max(most, for_jobs) < smallest:
        return 0, Why.OUTLIVES
    if for_jobs and (for_jobs >= most or not demand.per_day_m):
        return for_jobs, Why.JOBS
    if needed > most:
        return most, Why.LIMIT
    if goods.prices is None:
        return needed, Why.BELOW
    return _cheapest(demand, goods, goods.prices, needed, most)


def _for_jobs(goods: Goods, position_m: float) -> int:
    """The rolls that lift a position below nothing, which only what jobs need brings about."""
    if position_m >= 0:
        return 0
    return _in_packs(max(goods.least, ceil(-position_m / goods.roll_m)), goods.pack)


def _cheapest(
    demand: Demand, goods: Goods, prices: Prices, needed: int, most: int
) -> tuple[int, Why]:
    """The number of rolls that costs least a year, or as many of them as are used in time."""
    year = Year(
        demand=demand.per_day_m * _DAYS_A_YEAR,
        order_cost=prices.order_cost,
        holding_rate=prices.holding_rate,
    )
    numbers = range(needed, needed + _MOST_ROLLS, goods.pack)
    wanted = cheapest_rolls(year, prices.breaks, goods.roll_m, numbers)
    if wanted > most:
        return most, Why.LIMIT
    return wanted, Why.BELOW if wanted == needed else Why.CHEAPEST


def most_rolls(demand: Demand, supply: Supply, goods: Goods, position_m: float) -> int:
    """The most rolls, in packs, that are used before their limit even if demand is low."""
    if goods.life_days is None:
        return _MOST_ROLLS * goods.pack
    room_m = usable_m(demand, supply, goods.life_days) - position_m
    return max(0, floor(room_m / goods.roll_m)) // goods.pack * goods.pack


def _over_days(demand: Demand, supply: Supply, goods: Goods, held_m: float) -> float | None:
    """How long past its limit the last metre of so much would be, if demand is low."""
    if goods.life_days is None or not demand.per_day_m:
        return None
    if usable_m(demand, supply, goods.life_days) >= held_m:
        return None
    used_up = crossing(
        lambda days: usable_m(demand, supply, days) - held_m,
        goods.life_days,
        _FOREVER_DAYS,
        near_enough=_A_DAY,
    )
    return used_up - goods.life_days


def _in_packs(rolls: int, pack: int) -> int:
    return -(-rolls // pack) * pack
