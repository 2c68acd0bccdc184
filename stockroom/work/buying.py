"""Buying: for each material what is fit, below what to order, how many rolls or boxes, and why.

Fit is what is ours, blank, of verdict USE or USE FIRST, and big enough for a typical draw. What is
reserved, and what will be too old before an order comes, is not counted on. Nothing is known yet of
what is on order.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from stockroom.books.catalog import materials
from stockroom.books.opening import Book
from stockroom.books.use import Arrival, arrivals, lines
from stockroom.books.values import Material
from stockroom.film.dates import parse_partial_date
from stockroom.film.limits import Basis
from stockroom.film.verdict import Verdict
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
from stockroom.plan.reorder import Goods, Order, Supply, order
from stockroom.plan.rundown import Dated, run_down
from stockroom.plan.terms import Terms, terms_of
from stockroom.work.charging import area_left_mm2, area_mm2
from stockroom.work.drawing import DRAWING, amount_of, drawn
from stockroom.work.judging import Judged, View
from stockroom.work.look import rack
from stockroom.work.receive import OURS
from stockroom.work.reserved import reserved

_YEAR = timedelta(days=364)
_NEW_DAYS = 90
_FEW_DRAWS = 3
"""What is new, and was drawn less often than that, counts as it is expected; our own choice."""
_FIT = (Verdict.USE, Verdict.USE_FIRST)


@dataclass(frozen=True, slots=True, kw_only=True)
class OnHand:
    """What there is of a material, in metres of full width or numbers of goods."""

    fit: float
    small: float
    """Fit, but in pieces smaller than a typical draw."""
    to_test: float
    reserved: float
    lost: float
    """Of what is fit: too old before it is used, at the mean demand."""
    lost_before: float
    """The part of it that is too old before an order comes."""
    lots: tuple[Dated, ...]
    """What is fit, piece by piece, with the days it keeps."""

    @property
    def position(self) -> float:
        """What an order is decided by."""
        return max(0.0, self.fit - self.lost_before - self.reserved)


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


@dataclass(frozen=True, slots=True)
class Buying:
    """What to buy: every material that ever came in, by name."""

    view: View
    rows: tuple[Planned, ...]


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
    free: dict[int, list[Judged]] = {}
    for one in found.pieces:
        if _is_free(one):
            free.setdefault(one.standing.material.id, []).append(one)
    rows = (
        _planned(known[of], free.get(of, []), draws.get(of, []), arrived, seen)
        for of, arrived in came.items()
        if supplier.casefold() in known[of].terms.get("supplier", "").casefold()
    )
    return Buying(seen, tuple(sorted(rows, key=lambda row: row.material.name.casefold())))


def _is_free(one: Judged) -> bool:
    """Whether a piece is stock: ours, blank, and serving no job."""
    state = one.standing.state
    is_made = state.printed is not None or state.is_laminated
    return state.owner == OURS and not is_made and state.job_id is None


def _planned(
    material: Material,
    pieces: Sequence[Judged],
    draws: Iterable[Draw],
    arrived: Sequence[Arrival],
    seen: View,
) -> Planned:
    first = max(seen.shop.day_of(arrived[0].at), seen.today - _YEAR)
    terms = terms_of(material.terms)
    seen_draws = _drawn(net(draws), first, seen.today, terms.expected)
    supply, basis = _supply(terms, seen)
    on_hand = _on_hand(pieces, seen_draws.demand, supply.days, seen)
    goods = Goods(
        roll_m=_one(arrived[-1], material),
        pack=terms.pack,
        least=terms.least,
        life_days=_life_days(material, arrived[-1], seen),
    )
    return Planned(
        material=material,
        on_hand=on_hand,
        drawn=seen_draws,
        terms=terms,
        supply=supply,
        lead_basis=basis,
        goods=goods,
        order=order(seen_draws.demand, supply, goods, position_m=on_hand.position),
    )


def _drawn(draws: Sequence[Draw], first: date, last: date, expected: Demand | None) -> Drawn:
    days, weeks = (last - first).days + 1, weekly_m(draws, first, last)
    if expected is not None and days <= _NEW_DAYS and len(draws) < _FEW_DRAWS:
        return Drawn(demand=expected, pattern=Pattern.NEW, days=days, weeks=weeks, is_expected=True)
    demand = now_of(demand_of(draws, days), weeks)
    return Drawn(demand=demand, pattern=pattern_of(weeks), days=days, weeks=weeks)


def _supply(terms: Terms, seen: View) -> tuple[Supply, Basis]:
    """The lead time as entered, else as the house has it, and the days between two reviews."""
    house = seen.shop.house
    numbers = house.numbers
    is_entered = terms.lead_days is not None
    lead = numbers["buying.lead"] if terms.lead_days is None else terms.lead_days
    spread = numbers["buying.lead-spread"] if terms.spread_days is None else terms.spread_days
    supply = Supply(
        days=lead + numbers["buying.review"],
        variance_days2=spread**2,
        service=numbers["buying.service-percent"] / 100,
    )
    return supply, Basis.HOUSE if is_entered else house.basis("buying.lead")


def _on_hand(pieces: Sequence[Judged], demand: Demand, lead_days: float, seen: View) -> OnHand:
    fit = [one for one in pieces if one.judgement.verdict in _FIT]
    large = [one for one in fit if _serves(one, demand)]
    lots = tuple(Dated(_left(one), _days_left(one, seen.today)) for one in large)
    lost = run_down(lots, demand.per_day_m)
    return OnHand(
        fit=sum(map(_left, large)),
        small=sum(map(_left, fit)) - sum(map(_left, large)),
        to_test=sum(_left(one) for one in pieces if one.judgement.verdict is Verdict.TEST),
        reserved=sum(_reserved(one, seen.today) for one in large),
        lost=sum(lost),
        lost_before=sum(
            one
            for one, lot in zip(lost, lots, strict=True)
            if lot.days_left is not None and lot.days_left <= lead_days
        ),
        lots=lots,
    )


def _serves(one: Judged, demand: Demand) -> bool:
    """Whether a piece is big enough for a typical draw; goods are taken from several boxes."""
    return one.standing.state.form == "box" or _left(one) >= demand.draw_mean_m


def _left(one: Judged) -> float:
    state = one.standing.state
    is_box = state.form == "box"
    return amount_of(state.balance if is_box else area_left_mm2(state), one.standing.material)


def _reserved(one: Judged, today: date) -> float:
    """How much of a piece is kept for jobs."""
    state = one.standing.state
    area = sum(area_mm2(state.width_nm or 0, kept.along_nm) for kept in reserved(state, today))
    return min(_left(one), amount_of(area, one.standing.material))


def _days_left(one: Judged, today: date) -> float | None:
    due = one.judgement.due
    return None if due is None else max(0, (due - today).days)


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
