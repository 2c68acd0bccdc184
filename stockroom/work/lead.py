"""How long a supplier takes, from the order to the shelf: learned from orders, else as entered."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from statistics import fmean, stdev

from stockroom.books.calendar import ClosedDays
from stockroom.books.catalog import name_key
from stockroom.books.orders import Order, is_closed
from stockroom.books.values import Shop
from stockroom.film.limits import Basis, House
from stockroom.plan.terms import Terms

FEWEST = 3
"""Orders before which what was entered stands; our own choice."""
_NEWEST = 12
"""Older orders tell of another time; our own choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lead:
    """Days from the order to the shelf, how much they vary, what that rests on, and how many orders."""

    days: float
    spread_days: float
    basis: Basis
    orders: int = 0


def learned(found: Iterable[Order], shop: Shop) -> Mapping[str, tuple[int, ...]]:
    """How many days each order took until the last of it came, by the key of its supplier."""
    days: dict[str, list[int]] = {}
    for one in found:
        if one.sent_at is not None and one.came and is_closed(one):
            last = max(came.at for came in one.came)
            took = (shop.day_of(last) - shop.day_of(one.sent_at)).days
            days.setdefault(name_key(one.supplier), []).append(max(0, took))
    return {supplier: tuple(took[-_NEWEST:]) for supplier, took in days.items()}


def lead_of(terms: Terms, took: Mapping[str, tuple[int, ...]], house: House) -> Lead:
    """The lead time of what a supplier sells: its own orders', the entered one, or the house's."""
    of_orders = took.get(name_key(terms.supplier or ""), ())
    if len(of_orders) >= FEWEST:
        return Lead(
            days=fmean(of_orders),
            spread_days=stdev(of_orders),
            basis=Basis.ORDERS,
            orders=len(of_orders),
        )
    numbers = house.numbers
    is_entered = terms.lead_days is not None
    return Lead(
        days=numbers["buying.lead"] if terms.lead_days is None else terms.lead_days,
        spread_days=numbers["buying.lead-spread"]
        if terms.spread_days is None
        else terms.spread_days,
        basis=Basis.HOUSE if is_entered else house.basis("buying.lead"),
        orders=len(of_orders),
    )


def due_on(
    sent: date, days: float, *, supplier: tuple[ClosedDays, ...], shop: tuple[ClosedDays, ...]
) -> date:
    """The day an order comes: the supplier's closed days take no part, and somebody must be there."""
    day, left = sent, round(days)
    while left > 0:
        day += timedelta(days=1)
        left -= not _is_closed(day, supplier)
    while _is_closed(day, shop) or _is_closed(day, supplier):
        day += timedelta(days=1)
    return day


def _is_closed(day: date, closed: tuple[ClosedDays, ...]) -> bool:
    return any(day in days for days in closed)
