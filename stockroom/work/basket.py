"""What is ordered of one supplier at once: what is below its point, and what may come along.

One delivery costs the same for one film and for several. Where an order is below the amount from
which carriage is paid, films that will be below their points soon are proposed along until it is
reached: the nearest first, in packs, and never more than is used before its storage limit.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import groupby

from stockroom.books.catalog import name_key
from stockroom.books.suppliers import Supplier
from stockroom.plan.reorder import most_rolls
from stockroom.plan.terms import price_of
from stockroom.work.buying import Buying, Planned
from stockroom.work.lead import due_on

SOON_DAYS = 28.0
"""What is below its point by then may come along; our own choice."""


@dataclass(frozen=True, slots=True)
class Item:
    """So many rolls or boxes of a material; `is_along`: its point is not reached yet."""

    planned: Planned
    rolls: int
    is_along: bool = False

    @property
    def each_minor(self) -> int | None:
        """The price of one at that number; None where it is not known."""
        row = self.planned
        return price_of(row.terms, row.material.cost_minor, self.rolls)


@dataclass(frozen=True, slots=True, kw_only=True)
class Basket:
    """What to order of a supplier today, and the day it would come."""

    supplier: Supplier
    items: tuple[Item, ...]
    due: date

    @property
    def total_minor(self) -> int | None:
        """What it costs before carriage; None where a price is not known."""
        prices = [one.each_minor for one in self.items]
        if None in prices:
            return None
        return sum((price or 0) * one.rolls for price, one in zip(prices, self.items, strict=True))

    @property
    def is_paid(self) -> bool | None:
        """Whether the supplier pays the carriage; None where nobody can tell."""
        if self.supplier.paid_minor is None or self.total_minor is None:
            return None
        return self.total_minor >= self.supplier.paid_minor

    @property
    def is_too_small(self) -> bool:
        """Whether the supplier does not take so small an order."""
        least, total = self.supplier.least_minor, self.total_minor
        return least is not None and total is not None and total < least


def baskets(found: Buying) -> tuple[Basket, ...]:
    """What to order of each supplier, by name; of those of whom nothing is to be ordered, nothing."""
    named = sorted((row for row in found.rows if row.terms.supplier), key=_key)
    return tuple(
        _filled(basket, rows)
        for key, group in groupby(named, key=_key)
        if (basket := _needed(found, key, rows := tuple(group))) is not None
    )


def _key(row: Planned) -> str:
    return name_key(row.terms.supplier or "")


def _needed(found: Buying, key: str, rows: Sequence[Planned]) -> Basket | None:
    """What of a supplier's materials is below its point."""
    needed = tuple(Item(row, row.order.rolls) for row in rows if row.order.rolls)
    if not needed:
        return None
    supplier = found.agreed.get(key, Supplier(name=rows[0].terms.supplier or ""))
    days = max(one.planned.lead.days for one in needed)
    due = due_on(found.view.today, days, supplier=supplier.closed, shop=found.closed)
    return Basket(supplier=supplier, items=needed, due=due)


def _filled(basket: Basket, rows: Sequence[Planned]) -> Basket:
    """The basket with what may come along, a pack of each in turn, until carriage is paid."""
    near = sorted((row for row in rows if _is_near(row)), key=_days_to_point)
    while near:
        row = near.pop(0)
        if (item := _one_more(basket, row)) is not None:
            others = tuple(one for one in basket.items if one.planned is not row)
            basket = replace(basket, items=(*others, item))
            near.append(row)
    return basket


def _one_more(basket: Basket, row: Planned) -> Item | None:
    """One pack more of a material that may come along; None where it need not or must not."""
    enough = max(basket.supplier.paid_minor or 0, basket.supplier.least_minor or 0)
    if basket.total_minor is None or basket.total_minor >= enough:
        return None
    before = next((one.rolls for one in basket.items if one.planned is row), 0)
    goods = row.goods
    smallest = -(-goods.least // goods.pack) * goods.pack
    rolls = before + goods.pack if before else smallest
    most = most_rolls(row.drawn.demand, row.supply, goods, row.on_hand.position)
    item = Item(row, rolls, is_along=True)
    return item if rolls <= most and item.each_minor else None


def _is_near(row: Planned) -> bool:
    return not row.order.rolls and _days_to_point(row) <= SOON_DAYS


def _days_to_point(row: Planned) -> float:
    """How long until it is below its point at the mean demand."""
    a_day = row.drawn.demand.per_day_m
    above = row.on_hand.position - row.order.reorder_point_m
    return above / a_day if a_day else float("inf")
