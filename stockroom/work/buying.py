"""Buying: for each material what is fit, below what to order, how many rolls or boxes, and why.

Fit is what is ours, blank, of verdict USE or USE FIRST, and big enough for a typical draw. What is
reserved, and what will be too old before an order comes, is not counted on; what is on order is, and
what open jobs still need counts against it.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from stockroom.books.calendar import ClosedDays, closed_days
from stockroom.books.catalog import materials, name_key
from stockroom.books.opening import Book
from stockroom.books.orders import Order as Ordered
from stockroom.books.orders import orders
from stockroom.books.suppliers import Supplier, suppliers
from stockroom.books.use import Arrival, arrivals, lines
from stockroom.books.values import Material
from stockroom.film.dates import parse_partial_date
from stockroom.film.limits import Basis
from stockroom.plan.demand import (
    Demand,
    Draw,
    Pattern,
    demand_of,
    net,
    now_of,
    pattern_of,
    weekly_m,
)
from stockroom.plan.quantity import Break
from stockroom.plan.reorder import Goods, Order, Prices, Supply, order
from stockroom.plan.terms import Terms, terms_of
from stockroom.work.charging import area_mm2
from stockroom.work.drawing import DRAWING, amount_of, drawn
from stockroom.work.judging import Judged, View
from stockroom.work.lead import Lead, lead_of, learned
from stockroom.work.look import rack
from stockroom.work.needs import job_needs
from stockroom.work.on_hand import OnHand, is_free, on_hand, on_order
from stockroom.work.receive import OURS
from stockroom.work.unseen import as_if_it_came

_YEAR = timedelta(days=364)
_NEW_DAYS = 90
_FEW_DRAWS = 3
"""What is new, and was drawn less often than that, counts as it is expected; our own choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """What is drawn of a material, and in how many days that was seen."""

    demand: Demand
    pattern: Pattern
    days: int
    weeks: tuple[float, ...]
    """What each whole week of them drew, the oldest first."""
    is_expected: bool = False
    """The demand is what was entered, for nobody has seen it yet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """One material: what there is, what is drawn, how it is bought, and what to order."""

    material: Material
    on_hand: OnHand
    drawn: Drawn
    terms: Terms
    supply: Supply
    lead_basis: Basis
    goods: Goods
    order: Order
    lead: Lead
    """How long its supplier takes, and what that rests on."""
    usual: Arrival
    """The last that came: what is ordered is like it."""
    for_jobs: Mapping[str, float]
    """What each open job needs of it, by the job's code."""
    never_came: bool = False
    """Nothing of it ever did: `usual` is what it is taken to be."""


@dataclass(frozen=True, slots=True)
class Buying:
    """What to buy, by name; what was agreed, and when we are closed.

    Every material that ever came in, and those that never did which jobs need or somebody expects to.
    """

    view: View
    rows: tuple[Planned, ...]
    agreed: Mapping[str, Supplier]
    closed: tuple[ClosedDays, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Known:
    """What the plan of one material rests on, beside what was drawn of it."""

    seen: View
    orders: tuple[Ordered, ...]
    took: Mapping[str, tuple[int, ...]]
    agreed: Mapping[str, Supplier]
    needs: Mapping[int, Mapping[str, float]]


def buying(book: Book, *, now: datetime, supplier: str = "") -> Buying:
    """Plan what to buy of one supplier, or of all, from what is there and what a year drew."""
    found = rack(book, now=now)
    seen = found.view
    with book.reading() as connection:
        known = materials(connection, now)
        since = seen.shop.begin_of(seen.today - _YEAR)
        draws = drawn(lines(connection, DRAWING, since=since, until=now), known, seen.shop)
        came: dict[int, list[Arrival]] = {}
        for arrival in arrivals(connection, OURS):
            came.setdefault(arrival.material_id, []).append(arrival)
        ordered = orders(connection)
        agreed, closed = suppliers(connection, now), closed_days(connection, now)
    rests_on = _Known(
        seen=seen,
        orders=ordered,
        took=learned(ordered, seen.shop),
        agreed=agreed,
        needs=job_needs(book, known, seen.shop.house, found.pieces, ordered, seen.today),
    )
    free: dict[int, list[Judged]] = {}
    for one in found.pieces:
        if is_free(one):
            free.setdefault(one.standing.material.id, []).append(one)
    of_supplier = {
        of: one
        for of, one in known.items()
        if supplier.casefold() in one.terms.get("supplier", "").casefold()
    }
    rows = [
        _planned(of_supplier[of], free.get(of, []), draws.get(of, []), arrived, rests_on)
        for of, arrived in came.items()
        if of in of_supplier
    ]
    unseen = (one for of, one in of_supplier.items() if of not in came)
    rows += (row for one in unseen if (row := _never_came(one, rests_on)) is not None)
    by_name = sorted(rows, key=lambda row: row.material.name.casefold())
    return Buying(seen, tuple(by_name), agreed, closed)


def _never_came(material: Material, known: _Known) -> Planned | None:
    """The plan of what never came, where jobs need it, it is on order, or somebody expects to use it."""
    seen = known.seen
    taken = as_if_it_came(material, known.orders, seen.shop, seen.moment)
    if taken is None:
        return None
    row = replace(_planned(material, (), (), [taken], known), never_came=True)
    is_wanted = row.on_hand.needed or row.on_hand.on_order or row.drawn.is_expected
    return row if is_wanted else None


def _planned(
    material: Material,
    pieces: Sequence[Judged],
    draws: Iterable[Draw],
    arrived: Sequence[Arrival],
    known: _Known,
) -> Planned:
    seen, last = known.seen, arrived[-1]
    first = max(seen.shop.day_of(arrived[0].at), seen.today - _YEAR)
    terms = terms_of(material.terms)
    seen_draws = _drawn(net(draws), first, seen.today, terms.expected)
    lead = lead_of(terms, known.took, seen.shop.house)
    supply = _supply(lead, seen)
    for_jobs = known.needs.get(material.id, {})
    there = replace(
        on_hand(pieces, seen_draws.demand, supply.days, seen.today),
        on_order=on_order(known.orders, last, material),
        needed=sum(for_jobs.values()),
    )
    roll_m = _one(last, material)
    agreed = known.agreed.get(name_key(terms.supplier or ""))
    goods = Goods(
        roll_m=roll_m,
        pack=terms.pack,
        least=terms.least,
        life_days=_life_days(material, last, seen),
        prices=_prices(material, terms, roll_m, agreed, seen),
    )
    return Planned(
        material=material,
        on_hand=there,
        drawn=seen_draws,
        terms=terms,
        supply=supply,
        lead_basis=lead.basis,
        goods=goods,
        order=order(seen_draws.demand, supply, goods, position_m=there.position),
        lead=lead,
        usual=last,
        for_jobs=for_jobs,
    )


def _drawn(draws: Sequence[Draw], first: date, last: date, expected: Demand | None) -> Drawn:
    days, weeks = (last - first).days + 1, weekly_m(draws, first, last)
    if expected is not None and days <= _NEW_DAYS and len(draws) < _FEW_DRAWS:
        return Drawn(demand=expected, pattern=Pattern.NEW, days=days, weeks=weeks, is_expected=True)
    demand = now_of(demand_of(draws, days), weeks)
    return Drawn(demand=demand, pattern=pattern_of(weeks), days=days, weeks=weeks)


def _supply(lead: Lead, seen: View) -> Supply:
    """The lead time, and the days between two reviews."""
    numbers = seen.shop.house.numbers
    return Supply(
        days=lead.days + numbers["buying.review"],
        variance_days2=lead.spread_days**2,
        service=numbers["buying.service-percent"] / 100,
    )


def _prices(
    material: Material, terms: Terms, roll_m: float, agreed: Supplier | None, seen: View
) -> Prices | None:
    """What one costs by number, where that differs; an order costs its carriage."""
    one = material.cost_minor
    if not terms.breaks or not roll_m:
        return None
    first = Break(0, max(terms.breaks[0].price, 0 if one is None else one))
    known = (first, *terms.breaks)
    return Prices(
        order_cost=(agreed and agreed.carriage_minor) or 0,
        holding_rate=seen.shop.house.numbers["buying.holding-percent"] / 100,
        breaks=[Break(found.least, found.price / roll_m) for found in known],
    )


def _one(arrival: Arrival, material: Material) -> float:
    """What one roll or box holds, as the last one came."""
    if arrival.form == "box":
        return amount_of(arrival.full, material)
    return amount_of(area_mm2(arrival.width_nm or 0, arrival.full), material)


def _life_days(material: Material, last: Arrival, seen: View) -> float | None:
    """How long it keeps from the day it comes, as old as the last one came; None: no limit is known."""
    limit = material.limits.get("shelf") or seen.shop.house.shelf(material.kind)
    if limit is None:
        return None
    came = parse_partial_date(last.received).first
    made = came if last.made is None else parse_partial_date(last.made).first
    age_days = max(0, (came - made).days) if material.counted_from == "made" else 0
    return max(0, limit.span.days_from(seen.today) - age_days)
