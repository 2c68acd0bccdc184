"""How much to order at once: the economic order quantity, price breaks, whole rolls, one-off orders.

economic(demand, …)          without price breaks
with_breaks(demand, …)       the price of a quantity holds for all of it
with_steps(demand, …)        each price holds for what lies above its break
cheapest_rolls(year, …)      the same as the first, in whole rolls
for_once(mean, sd, …)        ordered once for a demand that is uncertain

Costs are by the year, or whatever time the demand is of, in whatever money the prices are.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import inf, sqrt
from statistics import NormalDist

from stockroom.errors import Code, Refusal


@dataclass(frozen=True, slots=True)
class Quantity:
    """How much to order at once, and what that costs a year."""

    quantity: float
    cost: float


@dataclass(frozen=True, slots=True)
class Break:
    """From a quantity on, a price for each unit."""

    least: float
    price: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Year:
    """What a year asks, what an order costs, and the share of a price that keeping it costs a year."""

    demand: float
    order_cost: float
    holding_rate: float


def economic(demand: float, order_cost: float, holding: float) -> Quantity:
    """The quantity at which ordering and keeping cost least; holding is money a unit and year."""
    return Quantity(
        sqrt(2 * order_cost * demand / holding), sqrt(2 * order_cost * demand * holding)
    )


def checked(breaks: Iterable[Break]) -> tuple[Break, ...]:
    """Price breaks by quantity.

    Refuses (BAD_USAGE) a first one above nothing, two at one quantity, and more for a larger one.
    """
    ordered = tuple(sorted(breaks, key=lambda one: one.least))
    if not ordered or ordered[0].least > 0:
        raise Refusal(
            Code.BAD_USAGE, "The first price break is at 0: give the price of one, 0:PRICE."
        )
    for one, after in pairwise(ordered):
        if one.least == after.least:
            raise Refusal(
                Code.BAD_USAGE, f"Two price breaks are at {one.least:g}: give each quantity once."
            )
        if one.price < after.price:
            raise Refusal(
                Code.BAD_USAGE,
                f"From {after.least:g} on, one costs more than before: check the price breaks.",
            )
    return ordered


def with_breaks(year: Year, breaks: Sequence[Break]) -> Quantity:
    """The cheapest quantity where the price of a quantity holds for all of it; breaks as `checked`."""
    found: list[Quantity] = []
    for one, ends in _tiers(breaks):
        quantity = max(
            economic(year.demand, year.order_cost, year.holding_rate * one.price).quantity,
            one.least,
        )
        if quantity < ends:
            found.append(Quantity(quantity, _yearly(year, one.price, quantity)))
    return min(found, key=lambda one: one.cost)


def with_steps(year: Year, breaks: Sequence[Break]) -> Quantity:
    """The cheapest quantity where each price holds only for what lies above its break."""
    found: list[Quantity] = []
    saved = 0.0  # what a quantity in this tier costs above its own price
    before = breaks[0]
    for one, ends in _tiers(breaks):
        saved += one.least * (before.price - one.price)
        before = one
        quantity = sqrt(
            2 * (year.order_cost + saved) * year.demand / (year.holding_rate * one.price)
        )
        if one.least <= quantity < ends:
            price = one.price + saved / quantity
            found.append(Quantity(quantity, _yearly(year, price, quantity)))
    return min(found, key=lambda one: one.cost)


def cheapest_rolls(year: Year, breaks: Sequence[Break], roll: float, numbers: Iterable[int]) -> int:
    """Of some numbers of rolls of a length, the one that costs least a year.

    The demand is in the unit of the length, prices are of that unit, breaks count rolls.
    """
    return min(numbers, key=lambda number: yearly_cost_of_rolls(year, breaks, roll, number))


def yearly_cost_of_rolls(year: Year, breaks: Sequence[Break], roll: float, number: int) -> float:
    """What a year costs if so many rolls are ordered at once."""
    price = max((one for one in breaks if one.least <= number), key=lambda one: one.least).price
    return _yearly(year, price, number * roll)


def for_once(mean: float, sd: float, under_cost: float, over_cost: float) -> float:
    """What to order once for a normal demand, by what one too few and one too many cost."""
    return NormalDist(mean, sd).inv_cdf(under_cost / (under_cost + over_cost))


def _tiers(breaks: Sequence[Break]) -> Iterable[tuple[Break, float]]:
    """Each price and the quantity at which the next one begins."""
    return zip(breaks, [*(one.least for one in breaks[1:]), inf], strict=True)


def _yearly(year: Year, price: float, quantity: float) -> float:
    keeping = year.holding_rate * price * quantity / 2
    return price * year.demand + year.order_cost * year.demand / quantity + keeping
