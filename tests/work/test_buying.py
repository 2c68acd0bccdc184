"""The plan of what to buy: what counts as stock, what counts as drawn, and what follows."""

from datetime import date, timedelta

import pytest
from scipy.stats import gamma

from stockroom.books.pen import writing
from stockroom.books.values import ActDraft, Asked, MoveDraft
from stockroom.film.kinds import Kind
from stockroom.film.limits import Basis
from stockroom.plan.demand import Pattern
from stockroom.plan.reorder import Why
from stockroom.plan.terms import Terms, terms_of
from stockroom.units import MM, M
from stockroom.work.buying import Planned, buying
from stockroom.work.reserved import RESERVE, Reserved, written
from stockroom.work.setup import ChangeMaterial, change_a_material
from tests.builders import BLADES, BLANK, CLEAR, FILM, ON_ONE_ENGINE, Station
from tests.floor import Floor


def _plan(station: Station, material: str = FILM) -> Planned:
    rows = {row.material.name: row for row in buying(station.book, now=station.now).rows}
    return rows[material]


def _terms(station: Station, **terms: str) -> None:
    request = ChangeMaterial(**station.asked(name=FILM, terms=terms))
    change_a_material(request, book=station.book, now=station.now)


def _weeks(station: Station, roll: str, job: str, weeks: int, length_nm: int = 3 * M) -> None:
    """A cut a week; the book is a day older than that in the end."""
    for _ in range(weeks):
        station.cut(roll, length_nm, job=job)
        station.wait(days=7)


def test_film_that_runs_low_is_ordered(station: Station) -> None:
    """Three metres a week for eight weeks: demand, point, roll and cover by hand."""
    job, roll = station.job(), station.roll()
    _weeks(station, roll, job, 8)

    found = _plan(station)

    demand = found.drawn.demand
    assert (found.drawn.days, found.drawn.pattern) == (57, Pattern.SMOOTH)
    assert demand.draws_per_day == pytest.approx(8 / 57)
    assert (demand.draw_mean_m, demand.draw_variance_m2) == (3, 0)
    mean, variance = 8 / 57 * 8 * 3 + 1.5, 8 / 57 * 8 * 9 + (24 / 57 * 3) ** 2 + 3
    assert found.order.reorder_point_m == pytest.approx(
        gamma.ppf(0.95, mean**2 / variance, scale=variance / mean), rel=1e-6
    )
    assert (found.on_hand.fit, found.on_hand.position) == (6, 6)
    assert (found.goods.roll_m, found.order.rolls, found.order.why) == (30, 1, Why.BELOW)
    assert found.order.covers_days == pytest.approx(36 / (24 / 57))
    assert (found.supply.days, found.lead_basis) == (8, Basis.DEFAULT)


def test_what_is_entered_counts_before_the_house(station: Station) -> None:
    """Lead time, its spread, packs, the fewest that are sold; and what was taken away again."""
    job, roll = station.job(), station.roll()
    _weeks(station, roll, job, 8)
    _terms(station, lead="3w", spread="5d", pack="2", least="3", supplier="film house")

    found = _plan(station)

    assert (found.supply.days, found.supply.variance_days2) == (22, 25)
    assert (found.lead_basis, found.order.rolls) == (Basis.HOUSE, 4)
    assert found.terms.supplier == "film house"
    _terms(station, lead="", spread="", pack="", least="", supplier="")
    assert _plan(station).terms == Terms()


def test_new_film_counts_as_it_is_expected_until_it_is_known(station: Station) -> None:
    """Until three draws, or a quarter of a year, have been seen; and that is said."""
    job, roll = station.job(), station.roll()
    _terms(station, expect="8x3m")
    station.cut(roll, M, job=job)
    station.wait(days=1)

    new = _plan(station)
    station.cut(roll, M, job=job)
    station.wait(days=1)
    station.cut(roll, M, job=job)
    known = _plan(station)

    assert (new.drawn.is_expected, new.drawn.demand) == (
        True,
        terms_of({"expect": "8x3000mm"}).expected,
    )
    assert (known.drawn.is_expected, known.drawn.demand.draw_mean_m) == (False, 1)


@ON_ONE_ENGINE
def test_film_that_was_expected_and_never_drawn_is_not_ordered_for_ever(station: Station) -> None:
    """After a quarter of a year its history speaks."""
    station.hold(station.roll())
    _terms(station, expect="8x3m")

    assert _plan(station).order.rolls == 1
    station.wait(days=100)
    assert (_plan(station).drawn.is_expected, _plan(station).order.rolls) == (False, 0)


def test_only_fit_blank_film_of_ours_is_stock(station: Station) -> None:
    """Not a client's, not held, not to be tested, not cut too small, not a print."""
    job = station.job()
    roll = station.roll()
    station.roll(owner="client", cost_minor=None)
    station.hold(station.roll())
    station.roll(made="2023-06-01", length_nm=7 * M)
    station.offcut((1_200 * MM, 2 * M), length_nm=2 * M)
    station.wait(days=1)
    station.cut(roll, 6 * M, job=job)
    blank = station.blank()
    station.print(blank, 4 * M, leader_nm=400 * MM, job=job)

    film, cast = _plan(station), _plan(station, BLANK)

    assert (film.on_hand.fit, film.on_hand.to_test) == (24, 7)
    assert film.on_hand.small == pytest.approx(1.6)
    assert cast.on_hand.fit == pytest.approx(25.6)


def test_film_is_drawn_when_it_leaves_the_free_stock(station: Station) -> None:
    """A print, its leader too, and the laminate on it; what is cut of it later was drawn before."""
    job, blank, clear = station.job(), station.blank(), station.clear()
    printed = station.print(blank, 4 * M, leader_nm=500 * MM, job=job).code
    laminated = station.laminate(printed, clear, 4 * M, waste_nm=MM * 250).code
    station.wait(days=1)
    station.cut(laminated, 3 * M, job=job)
    roll = station.roll()
    station.cut(roll, 5 * M, job=job)
    station.cut(roll, 4 * M)
    station.wait(days=1)
    station.back(roll, job, amount=2 * M)
    station.discard(roll)

    assert _plan(station, BLANK).drawn.demand.draw_mean_m == pytest.approx(4.5)
    assert _plan(station, CLEAR).drawn.demand.draw_mean_m == pytest.approx(4)
    film = _plan(station).drawn.demand
    assert film.draw_mean_m == pytest.approx((3 + 4) / 2)
    assert film.draws_per_day == pytest.approx(2 / 2)


def test_what_would_be_too_old_is_lost_and_not_counted_on(floor: Floor) -> None:
    """Five days before its limit a roll loses what five days do not draw."""
    floor.set_value("curl.window-film", "20mm")  # how it curls is not asked here
    job = floor.job()
    old = floor.roll(made="2025-01-25")
    _weeks(floor, old, job, 8)
    assert floor.now.date() == date(2027, 1, 20)

    on_hand = _plan(floor).on_hand

    assert on_hand.fit == 6
    assert on_hand.lost == pytest.approx(6 - 24 / 57 * 5)
    assert on_hand.lost_before == on_hand.lost
    assert on_hand.position == pytest.approx(24 / 57 * 5)


def test_goods_are_planned_in_boxes(station: Station) -> None:
    """Ten blades a week out of a box of a hundred; nothing is too small of goods."""
    job, box = station.job(), station.box()
    for _ in range(9):
        station.take(box, 10, job=job)
        station.wait(days=7)

    found = _plan(station, BLADES)

    assert (found.on_hand.fit, found.goods.roll_m, found.goods.life_days) == (10, 100, None)
    assert (found.order.rolls, found.order.more_over_days) == (1, None)


def _reserve(station: Station, code: str, length_nm: int, job: str, days: int) -> None:
    """Some of a piece is kept for a job for so many days more."""
    until = (station.now + timedelta(days=days)).date().isoformat()
    request = Asked(**station.asked())
    with writing(station.book, request, now=station.now, pieces=[code]) as pen:
        sets = {"reserved": written([Reserved(job, length_nm, until)])}
        move = MoveDraft(code=code, kind=RESERVE, sets=sets)
        pen.append(ActDraft(kind=RESERVE, at=station.now, moves=(move,)))


def test_what_is_reserved_is_not_counted_on(station: Station) -> None:
    """As much as is kept for a job, until the day it lapses."""
    job, roll = station.job(), station.roll()
    _weeks(station, roll, job, 3)
    before = _plan(station).on_hand
    _reserve(station, roll, 5 * M, job, days=3)

    after = _plan(station).on_hand
    station.wait(days=4)
    later = _plan(station).on_hand

    assert [one.reserved for one in (before, after, later)] == [0, 5, 0]
    assert [one.position for one in (before, after, later)] == [21, 16, 21]


@ON_ONE_ENGINE
def test_film_nobody_draws_is_not_ordered_even_when_there_is_none(station: Station) -> None:
    """And a book in which nothing came has no plan."""
    assert buying(station.book, now=station.now).rows == ()
    station.hold(station.roll())
    station.wait(days=60)

    found = _plan(station)

    assert (found.on_hand.position, found.drawn.pattern) == (0, Pattern.NONE)
    assert (found.order.rolls, found.order.why) == (0, Why.ENOUGH)


@ON_ONE_ENGINE
def test_film_that_would_outlive_its_limit_is_not_ordered(station: Station) -> None:
    """One draw a year does not use a roll before it is too old."""
    job = station.job()
    station.material("calendered", Kind.CALENDERED_VINYL)
    roll = station.roll(material="calendered", length_nm=3 * M, made=None)
    station.wait(days=200)
    station.cut(roll, 2 * M, job=job)
    station.wait(days=20)

    found = _plan(station, "calendered")

    assert found.goods.life_days == 366  # a leap year
    assert (found.order.rolls, found.order.why) == (0, Why.OUTLIVES)


@ON_ONE_ENGINE
def test_the_age_at_which_film_comes_shortens_its_life(station: Station) -> None:
    """As old as the last roll came."""
    station.roll(made="2026-11-25")
    fresh = _plan(station).goods.life_days
    station.roll(made=(station.now - timedelta(days=90)).date().isoformat())

    aged = _plan(station).goods.life_days

    assert fresh is not None
    assert aged == fresh - 90
