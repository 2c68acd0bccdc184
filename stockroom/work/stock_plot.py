"""A material as a plot shows it: what there was and was drawn of it week by week, and what is to come.

stock_plot(book, planned, seen)   StockPlot

What there was is all blank stock of ours; what is to come begins with what is fit and not reserved,
and counts on no order.
"""

from dataclasses import dataclass
from datetime import date, timedelta

from stockroom.books.opening import Book
from stockroom.books.use import StockChange, stock_changes
from stockroom.books.values import Material
from stockroom.plan.ahead import ahead
from stockroom.plan.demand import WEEK
from stockroom.work.buying import Planned
from stockroom.work.charging import area_mm2
from stockroom.work.drawing import amount_of
from stockroom.work.judging import View
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
    on_hand, demand = planned.on_hand, planned.drawn.demand
    coming = ahead(on_hand.lots, demand, WEEKS, on_hand.reserved)
    a_week = demand.per_day_m * WEEK
    weeks = (0.0,) * (WEEKS - len(planned.drawn.weeks)) + planned.drawn.weeks
    return StockPlot(
        planned=planned,
        since=since,
        until=seen.today + timedelta(days=WEEKS * WEEK),
        stock=(*weekly(found), *(Level(*one) for one in coming)),
        drawn=(*(Level(0.0, one, one) for one in weeks), *(Level(*(a_week,) * 3),) * WEEKS),
    )


def _amount(one: StockChange, material: Material) -> float:
    if one.form == "box":
        return amount_of(one.delta, material)
    across_nm = one.width_nm or 0
    before, after = (area_mm2(across_nm, one.balance - by) for by in (one.delta, 0))
    return amount_of(after - before, material)
