"""A material as a plot shows it: what there was and was drawn of it week by week, and what is to come.

stock_plot(book, planned, seen)   StockPlot

What there was is all blank stock of ours. What is to come begins with what is fit, less what is kept
for jobs or needed by them; what is on order comes on its day.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from stockroom.books.opening import Book
from stockroom.books.orders import Order, orders
from stockroom.books.use import StockChange, stock_changes
from stockroom.books.values import Material
from stockroom.plan.ahead import Coming, ahead
from stockroom.plan.demand import WEEK
from stockroom.plan.rundown import Dated
from stockroom.work.buying import Planned
from stockroom.work.charging import area_mm2
from stockroom.work.drawing import amount_of
from stockroom.work.judging import View
from stockroom.work.on_hand import on_order
from stockroom.work.receive import OURS
from stockroom.work.weekly import WEEKS, weekly
from stockroom.work.zone_plot import Level, Levels


@dataclass(frozen=True, slots=True, kw_only=True)
class StockPlot:
    """Week by week, in metres of full width or numbers of goods: so many back, and as many ahead."""

    planned: Planned
    since: date
    """The day on which the first week begins."""
    until: date
    stock: Levels
    drawn: Levels
    """In the weeks to come, what is drawn on average."""


def stock_plot(book: Book, planned: Planned, seen: View) -> StockPlot:
    """What there was of a material up to now, and what there will be if nothing comes."""
    since = seen.today - timedelta(days=WEEKS * WEEK - 1)
    with book.reading() as connection:
        found = [
            ((seen.shop.day_of(one.at) - since).days // WEEK, _amount(one, planned.material))
            for one in stock_changes(connection, OURS, planned.material.id, until=seen.moment)
        ]
        ordered_now = orders(connection, are_open=True)
    on_hand, demand = planned.on_hand, planned.drawn.demand
    for_jobs = on_hand.reserved + on_hand.needed
    coming = ahead(
        on_hand.lots, demand, WEEKS, for_jobs, _on_its_way(planned, ordered_now, seen.today)
    )
    a_week = demand.per_day_m * WEEK
    weeks = (0.0,) * (WEEKS - len(planned.drawn.weeks)) + planned.drawn.weeks
    return StockPlot(
        planned=planned,
        since=since,
        until=seen.today + timedelta(days=WEEKS * WEEK),
        stock=(*weekly(found), *(Level(*one) for one in coming)),
        drawn=(*(Level(0.0, one, one) for one in weeks), *(Level(*(a_week,) * 3),) * WEEKS),
    )


def _on_its_way(planned: Planned, found: Iterable[Order], today: date) -> Iterator[Coming]:
    """What is on order for stock, and how long it will keep."""
    life_days = planned.goods.life_days
    for order in found:
        in_days = ((order.expected or today) - today).days
        end = None if life_days is None else max(0, in_days) + life_days
        if amount := on_order([order], planned.usual, planned.material):
            yield Coming(in_days, Dated(amount, end))


def _amount(one: StockChange, material: Material) -> float:
    if one.form == "box":
        return amount_of(one.delta, material)
    across_nm = one.width_nm or 0
    before, after = (area_mm2(across_nm, one.balance - by) for by in (one.delta, 0))
    return amount_of(after - before, material)
