"""The simulated year: small, and each of its rules alone."""

from random import Random  # noqa: TID251 - seeded

import pytest

from scripts.speed.result import Part
from scripts.study.year import (
    Coming,
    Film,
    Roll,
    Shelf,
    Year,
    _ask,
    _draws,
    _receive,
    simulated,
    two_when_the_last_is_opened,
)
from stockroom.plan.demand import Demand
from stockroom.plan.reorder import Goods, Supply

OFTEN = Film(
    demand=Demand(draws_per_day=0.08, draw_mean_m=5.0, draw_variance_m2=9.0),
    supply=Supply(days=8, variance_days2=9.0),
    goods=Goods(roll_m=50.0, life_days=350),
    price=2.0,
)


def shelf(*rolls: Roll) -> Shelf:
    return Shelf(OFTEN, list(rolls))


def test_the_plan_keeps_its_promise_with_less_film_and_less_that_grows_too_old() -> None:
    """Twenty years of one film that keeps for a year: the service is 95 %."""
    plan, rule = simulated([OFTEN], 20, settling=1)

    assert plan.draws == rule.draws
    assert plan.draws == pytest.approx(20 * 0.08 * 364, rel=0.1)
    assert plan.waited_pct < 5
    assert plan.too_old_pct < rule.too_old_pct / 2
    assert plan.tied_up_pct < rule.tied_up_pct / 2
    assert simulated([OFTEN], 1, settling=1) == simulated([OFTEN], 1, settling=1)


def test_draws_are_as_many_and_as_long_as_the_demand_says() -> None:
    """In five years and the one before; none is longer than a roll."""
    lengths = [one.length_m for one in _draws(OFTEN, 5 * 364, Random(1))]  # noqa: S311

    assert len(lengths) == pytest.approx(0.08 * 6 * 364, rel=0.2)
    assert sum(lengths) / len(lengths) == pytest.approx(5.0, rel=0.2)
    assert 0 < min(lengths) <= max(lengths) <= 50


def test_a_draw_is_cut_from_what_ends_first_or_waits_until_film_comes() -> None:
    """The rest of a piece that is too short stays, and grows too old."""
    here, year = shelf(Roll(3.0, 90, is_whole=False), Roll(50.0, 200)), Year()

    _ask(here, 4.0, year)
    assert [one.left_m for one in here.rolls] == [3.0, 46.0]
    _ask(here, 47.0, year)
    _ask(here, 1.0, year)
    assert (year.draws, year.waited, list(here.waiting)) == (3, 2, [47.0, 1.0])

    here.coming.append(Coming(100, 1))
    _receive(here, 100, year)
    assert [one.left_m for one in here.rolls] == [45.0, 3.0]
    assert (year.too_old, year.used) == (3.0 * 2, (4 + 47 + 1) * 2)
    assert not here.waiting
    assert not here.coming


@pytest.mark.parametrize(
    ("whole", "coming", "orders"), [(True, 0, 0), (False, 0, 2), (False, 2, 0)]
)
def test_the_rule_of_thumb_orders_two_when_the_last_is_opened(
    whole: bool,  # noqa: FBT001
    coming: int,
    orders: int,
) -> None:
    """Once, until they come."""
    here = shelf(Roll(20.0, 90, is_whole=False), Roll(50.0, 90, is_whole=whole))
    here.coming += [Coming(5, coming)] * bool(coming)

    assert two_when_the_last_is_opened(here, 0) == orders


def test_a_part_is_compared_by_its_ratio() -> None:
    """And shown as the shares that it is of."""
    part = Part("too old, %", 4.0, 29.0, 0.5)

    assert part.is_met
    assert list(part.cells()) == ["too old, %", "4.0", "29.0", "0.14", "≤ 0.5", "ok"]
