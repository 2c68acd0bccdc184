"""Laws of demand, of orders, and of what grows too old."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stockroom.plan.demand import Demand, Draw, demand_of, net, weekly_m
from stockroom.plan.gamma import Spread, quantile, share_below
from stockroom.plan.reorder import Goods, Supply, Why, order, reorder_point_m, usable_m
from stockroom.plan.rundown import Dated, run_down

FIRST = date(2026, 1, 1)
DRAWS = st.lists(
    st.builds(
        lambda day, length, whom: Draw(FIRST + timedelta(days=day), float(length), whom),
        st.integers(0, 60),
        st.integers(-20, 20).filter(bool),
        st.sampled_from(["A", "B", ""]),
    ),
    max_size=30,
)
DEMANDS = st.builds(
    lambda often, mean, spread: Demand(
        draws_per_day=often, draw_mean_m=mean, draw_variance_m2=(mean * spread) ** 2
    ),
    st.floats(0.001, 5),
    st.floats(0.1, 50),
    st.floats(0, 2),
)
SUPPLIES = st.builds(
    lambda days, spread, service: Supply(days=days, variance_days2=spread**2, service=service),
    st.floats(0, 60),
    st.floats(0, 20),
    st.floats(0.5, 0.99),
)
GOODS = st.builds(
    Goods,
    roll_m=st.floats(1, 60),
    pack=st.integers(1, 5),
    least=st.integers(1, 5),
    life_days=st.none() | st.integers(1, 1_500),
)
LOTS = st.lists(st.builds(Dated, st.floats(0, 100), st.none() | st.floats(0, 1_000)), max_size=8)


@given(DRAWS)
def test_net_draws_are_one_a_day_and_nothing_comes_back_twice(draws: list[Draw]) -> None:
    """Each is more than nothing; together no more than was drawn, and no less than is left of it."""
    found = net(draws)

    assert all(one.length_m > 0 for one in found)
    assert len({(one.day, one.whom) for one in found}) == len(found)
    total = sum(one.length_m for one in found)
    assert sum(one.length_m for one in draws) <= total + 1e-9
    assert total <= sum(max(0.0, one.length_m) for one in draws) + 1e-9


@given(DRAWS)
def test_weeks_and_demand_add_up_to_the_draws(draws: list[Draw]) -> None:
    """Over ten whole weeks that hold them all."""
    found = net(draws)
    total = sum(one.length_m for one in found)

    assert sum(weekly_m(found, FIRST, FIRST + timedelta(days=69))) == pytest.approx(total)
    assert demand_of(found, 70).per_day_m * 70 == pytest.approx(total)


@given(st.floats(0.01, 500), st.floats(0.01, 1.2), st.floats(0.05, 0.99))
def test_a_quantile_is_passed_with_its_chance(mean: float, spread: float, share: float) -> None:
    """From film of a day to film of a year, from even to lumpy."""
    of = Spread(mean, (mean * spread) ** 2)

    assert share_below(quantile(share, of), of) == pytest.approx(share, abs=1e-6)


@given(DEMANDS, SUPPLIES)
def test_more_is_kept_for_a_longer_or_less_certain_time(demand: Demand, supply: Supply) -> None:
    """And for a better service."""
    point_m = reorder_point_m(demand, supply)
    longer = Supply(
        days=supply.days + 5, variance_days2=supply.variance_days2, service=supply.service
    )
    surer = Supply(days=supply.days, variance_days2=supply.variance_days2, service=0.995)

    assert reorder_point_m(demand, longer) >= point_m * (1 - 1e-9)
    assert reorder_point_m(demand, surer) >= point_m * (1 - 1e-9)


@given(DEMANDS, SUPPLIES, GOODS, st.floats(0, 300))
def test_an_order_is_in_packs_and_never_outlives_its_limit(
    demand: Demand, supply: Supply, goods: Goods, position_m: float
) -> None:
    """What is ordered reaches the point, or is as much as lives long enough."""
    found = order(demand, supply, goods, position_m=position_m)

    assert found.rolls % goods.pack == 0
    held_m = position_m + found.rolls * goods.roll_m
    assert (found.why is Why.ENOUGH) is (position_m >= found.reorder_point_m)
    if found.rolls:
        assert found.rolls >= goods.least
        assert found.why is Why.LIMIT or held_m >= found.reorder_point_m - 1e-9
        if goods.life_days is not None:
            assert held_m <= usable_m(demand, supply, goods.life_days) + 1e-9


@given(LOTS, st.floats(0, 20))
def test_no_more_is_used_than_is_drawn_and_no_more_is_lost_than_is_there(
    lots: list[Dated], per_day: float
) -> None:
    """What has no limit is never lost; by any day no more is used than was drawn till then."""
    lost = run_down(lots, per_day)

    for lot, one in zip(lots, lost, strict=True):
        assert 0 <= one <= lot.amount
        assert lot.days_left is not None or one == 0
    ends = [lot.days_left for lot in lots if lot.days_left is not None]
    for end in ends:
        used = sum(
            lot.amount - one
            for lot, one in zip(lots, lost, strict=True)
            if lot.days_left is not None and lot.days_left <= end
        )
        assert used <= per_day * end + 1e-6
