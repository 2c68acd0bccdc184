"""The plan beside orders: what is coming, what jobs need, how long suppliers take, what goes along."""

from datetime import date, timedelta

import pytest

from stockroom.books.calendar import ClosedDays
from stockroom.books.opening import Book
from stockroom.film.kinds import Kind
from stockroom.film.limits import Basis
from stockroom.plan.reorder import Why
from stockroom.units import M
from stockroom.work.basket import Basket, baskets
from stockroom.work.buying import Planned, buying
from stockroom.work.lead import due_on
from stockroom.work.order_draft import Wanted
from stockroom.work.order_plan import planned_order
from stockroom.work.setup import ChangeMaterial, change_a_material
from stockroom.work.suppliers import ChangeSupplier, change_supplier
from tests.builders import BLANK, CLEAR, FILM, LENGTH, ON_ONE_ENGINE
from tests.ordering import SUPPLIER, Buyer

ROLL = Wanted(material=FILM, pieces=1, length_nm=LENGTH)


@pytest.fixture
def buyer(book: Book) -> Buyer:
    """A shop in which three metres of film a week are drawn, and six are left."""
    found = Buyer(book)
    job, roll = found.job(), found.roll()
    _terms(found, supplier=SUPPLIER)
    for _ in range(8):
        found.cut(roll, 3 * M, job=job)
        found.wait(days=7)
    return found


def _terms(at: Buyer, material: str = FILM, **terms: str) -> None:
    request = ChangeMaterial(**at.asked(name=material, terms=terms))
    change_a_material(request, book=at.book, now=at.now)


def _agreed(at: Buyer, **terms: int) -> None:
    request = ChangeSupplier(**at.asked(name=SUPPLIER, terms=terms))
    change_supplier(request, book=at.book, now=at.now)


def _plan(at: Buyer, material: str = FILM) -> Planned:
    rows = {row.material.name: row for row in buying(at.book, now=at.now).rows}
    return rows[material]


def _basket(at: Buyer) -> Basket:
    return baskets(buying(at.book, now=at.now))[0]


def test_what_is_on_its_way_is_counted_until_it_has_come(buyer: Buyer) -> None:
    """A draft is nothing yet; what is cancelled is nothing any more; what came is on the rack."""
    code = buyer.draft(ROLL).code
    assert (_plan(buyer).on_hand.on_order, _plan(buyer).order.rolls) == (0, 1)

    buyer.send(code)
    assert (_plan(buyer).on_hand.position, _plan(buyer).order.rolls) == (36, 0)

    buyer.arrive(code)
    assert (_plan(buyer).on_hand.on_order, _plan(buyer).on_hand.fit) == (0, 36)
    more = buyer.ordered(ROLL)
    buyer.cancel(more)
    assert _plan(buyer).on_hand.on_order == 0


def test_film_bought_for_a_job_is_no_stock_of_others_and_covers_its_job(buyer: Buyer) -> None:
    """Ten metres that a job needs are ordered; on its way for that job they are needed no more."""
    job = buyer.job("tram shelter")
    buyer.panels(job, *(((1_460, 1_960),) * 5))  # with 20 mm of trim on each side: 1.5 m by 2 m
    assert _plan(buyer).on_hand.needed == pytest.approx(10)
    assert _plan(buyer).on_hand.position == pytest.approx(6 - 10)

    code = buyer.ordered(Wanted(material=FILM, pieces=1, length_nm=LENGTH, job=job))
    found = _plan(buyer).on_hand
    assert (found.needed, found.on_order, found.position) == (0, 0, 6)

    buyer.arrive(code)
    found = _plan(buyer).on_hand
    assert (found.needed, found.reserved, found.position) == (0, 30, 6)


@ON_ONE_ENGINE
def test_film_that_only_a_job_needs_is_ordered_for_it(buyer: Buyer) -> None:
    """Nobody draws it else; one roll serves, and that is why."""
    buyer.discard(buyer.blank())
    job = buyer.job("bus")
    buyer.panels(job, (1_460, 1_960), material=BLANK)

    found = _plan(buyer, BLANK)

    assert (found.order.rolls, found.order.why) == (1, Why.JOBS)


@ON_ONE_ENGINE
def test_film_that_never_came_is_planned_where_a_job_needs_it(buyer: Buyer) -> None:
    """A roll is taken to be as long as such film is sold, then as it was ordered."""
    buyer.material("night blue", Kind.PRINT_VINYL, terms={"supplier": SUPPLIER})
    assert "night blue" not in {row.material.name for row in buying(buyer.book, now=buyer.now).rows}
    job = buyer.job("signs")
    buyer.panels(job, *(((1_460, 1_980),) * 5), material="night blue")

    found = _plan(buyer, "night blue")
    assert (found.never_came, found.order.rolls, found.order.why) == (True, 2, Why.JOBS)
    assert found.goods.roll_m == pytest.approx(10 * 0.9144)
    _, lines = planned_order(buyer.book, SUPPLIER, now=buyer.now)
    assert [(one.material, one.job) for one in lines] == [(FILM, None), ("night blue", job)]

    draft = Wanted(material="night blue", pieces=1, length_nm=25 * M)
    code = buyer.draft(draft).code
    assert (_plan(buyer, "night blue").order.rolls, _basket(buyer).items[1].rolls) == (1, 1)
    buyer.send(code)
    assert _plan(buyer, "night blue").on_hand.on_order == 25
    assert _plan(buyer, "night blue").order.rolls == 0


def test_a_supplier_is_known_by_its_orders_once_there_are_three(buyer: Buyer) -> None:
    """They took 4, 6 and 11 days: 7 on average, 3.6 more or less; until then what was entered."""
    _terms(buyer, lead="3d", spread="1d")
    last = ""
    for took in (4, 6, 11):
        assert (_plan(buyer).lead.days, _plan(buyer).lead_basis) == (3, Basis.HOUSE)
        code = buyer.ordered(Wanted(material=FILM, pieces=2, length_nm=LENGTH))
        buyer.wait(days=took - 1)
        buyer.arrive(code, pieces=1)
        buyer.wait(days=1)
        last = buyer.arrive(code).codes[0]

    found = _plan(buyer)
    assert (found.lead.days, found.lead_basis, found.lead.orders) == (7, Basis.ORDERS, 3)
    assert found.lead.spread_days == pytest.approx(13**0.5)
    assert found.supply.days == 8
    buyer.undo(last)
    assert _plan(buyer).lead_basis is Basis.HOUSE


def _second_film(at: Buyer, **terms: str) -> None:
    """Media above its point by a little, of the same supplier, at 400 a roll."""
    roll, job = at.blank(), at.job("media")
    for _ in range(7):
        at.cut(roll, 2 * M, job=job)
        at.wait(days=7)
    change = {"cost_minor": 40_000}
    request = ChangeMaterial(
        **at.asked(name=BLANK, changes=change, terms={"supplier": SUPPLIER} | terms)
    )
    change_a_material(request, book=at.book, now=at.now)
    change_a_material(
        ChangeMaterial(**at.asked(name=FILM, changes={"cost_minor": 45_000})),
        book=at.book,
        now=at.now,
    )


@ON_ONE_ENGINE
def test_what_will_be_below_soon_comes_along_until_carriage_is_paid(buyer: Buyer) -> None:
    """Without an agreed amount nothing does; nor beyond what keeps until it is used."""
    _second_film(buyer)
    near = _plan(buyer, BLANK)
    assert near.order.rolls == 0

    assert [(one.planned.material.name, one.rolls) for one in _basket(buyer).items] == [(FILM, 1)]
    assert _basket(buyer).is_paid is None

    _agreed(buyer, paid_minor=80_000, carriage_minor=2_500)
    found = _basket(buyer)
    assert [(one.planned.material.name, one.rolls, one.is_along) for one in found.items] == [
        (FILM, 1, False),
        (BLANK, 1, True),
    ]
    assert (found.total_minor, found.is_paid) == (85_000, True)

    supplier, lines = planned_order(buyer.book, SUPPLIER, now=buyer.now)
    assert (supplier, [(one.material, one.pieces, one.cost_minor) for one in lines]) == (
        SUPPLIER,
        [(FILM, 1, 45_000), (BLANK, 1, 40_000)],
    )

    _agreed(buyer, paid_minor=10_000_000)
    most = _basket(buyer).items[1].rolls
    assert _basket(buyer).is_paid is False
    a_day = near.drawn.demand.per_day_m
    assert near.goods.life_days is not None
    assert most * 30 < (near.goods.life_days + 8) * a_day


@ON_ONE_ENGINE
def test_an_order_below_the_least_is_said(buyer: Buyer) -> None:
    """And what is not priced has no total."""
    _agreed(buyer, least_minor=90_000)
    assert (_basket(buyer).total_minor, _basket(buyer).is_too_small) == (None, False)
    request = ChangeMaterial(**buyer.asked(name=FILM, changes={"cost_minor": 45_000}))
    change_a_material(request, book=buyer.book, now=buyer.now)

    assert (_basket(buyer).total_minor, _basket(buyer).is_too_small) == (45_000, True)


@ON_ONE_ENGINE
def test_a_price_that_falls_with_the_number_is_taken_where_it_costs_less_a_year(
    buyer: Buyer,
) -> None:
    """Two at a third less are cheaper than one and keeping the other; at a cent less they are not."""
    request = ChangeMaterial(**buyer.asked(name=FILM, changes={"cost_minor": 45_000}))
    change_a_material(request, book=buyer.book, now=buyer.now)
    _terms(buyer, breaks="2:300", supplier=SUPPLIER)
    assert (_plan(buyer).order.rolls, _plan(buyer).order.why) == (2, Why.CHEAPEST)
    assert _basket(buyer).total_minor == 60_000

    _terms(buyer, breaks="2:449.99")
    assert (_plan(buyer).order.rolls, _plan(buyer).order.why) == (1, Why.BELOW)


def _days(first: int, last: int) -> ClosedDays:
    return ClosedDays(date(2026, 12, first), date(2026, 12, last), "")


@pytest.mark.parametrize(
    ("supplier", "shop", "due"),
    [
        ((), (), 8),
        ((_days(3, 4),), (), 10),
        ((_days(3, 4), _days(4, 5)), (), 11),
        ((), (_days(3, 4),), 8),
        ((), (_days(8, 9),), 10),
        ((_days(10, 10),), (_days(8, 9),), 11),
    ],
)
def test_closed_days_push_the_day_an_order_comes(
    supplier: tuple[ClosedDays, ...], shop: tuple[ClosedDays, ...], due: int
) -> None:
    """The supplier's take no part in its seven days; ours only where it would come on one."""
    sent = date(2026, 12, 1)

    assert due_on(sent, 7, supplier=supplier, shop=shop) == date(2026, 12, due)
    assert due_on(sent, 0, supplier=(), shop=()) == sent
    assert due_on(sent, 6.6, supplier=(), shop=()) == sent + timedelta(days=7)


@ON_ONE_ENGINE
def test_suppliers_keep_apart(buyer: Buyer) -> None:
    """Of two suppliers each has its basket; what nobody sells has none."""
    buyer.discard(buyer.clear())
    buyer.material("also", Kind.LAMINATE)
    buyer.panels(buyer.job("seal"), (1_000, 1_000), material=CLEAR)
    assert [one.supplier.name for one in baskets(buying(buyer.book, now=buyer.now))] == [SUPPLIER]

    _terms(buyer, CLEAR, supplier="Second Source")

    found = baskets(buying(buyer.book, now=buyer.now))
    assert [one.supplier.name for one in found] == [SUPPLIER, "Second Source"]
