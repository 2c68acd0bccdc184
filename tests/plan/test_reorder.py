"""When to order and how many rolls: the promise is kept, and nothing is bought to grow old."""

from random import Random  # noqa: TID251 - seeded

import pytest
from scipy.stats import gamma

from stockroom.plan.demand import NOTHING, Demand
from stockroom.plan.quantity import Break
from stockroom.plan.reorder import (
    Goods,
    Order,
    Prices,
    Supply,
    Why,
    during,
    order,
    reorder_point_m,
    usable_m,
)

ROLL_M = 30.48
WEEKLY = Supply(days=8, variance_days2=9)
OFTEN = Demand(draws_per_day=0.5, draw_mean_m=3, draw_variance_m2=5.76)
SELDOM = Demand(draws_per_day=2 / 30.4, draw_mean_m=3, draw_variance_m2=5.76)


def _kept(per_month: float, seed: int, cycles: int = 4_000) -> float:
    """The share of cycles without a shortage: gamma draws at random times, gamma lead times."""
    chance = Random(seed)  # noqa: S311 - no secret
    demand = Demand(draws_per_day=per_month / 30.4, draw_mean_m=3, draw_variance_m2=5.76)
    point_m = reorder_point_m(demand, WEEKLY)

    def length_m() -> float:
        return chance.gammavariate(9 / 5.76, 5.76 / 3)

    kept = 0
    for _ in range(cycles):
        left_m = point_m + 30 * chance.random()
        while left_m >= point_m:
            left_m -= length_m()
        days = chance.gammavariate(64 / 9, 9 / 8) - chance.expovariate(demand.draws_per_day)
        while days > 0:
            left_m -= length_m()
            days -= chance.expovariate(demand.draws_per_day)
        kept += left_m >= 0
    return kept / cycles


@pytest.mark.parametrize("per_month", [5, 15, 30, 60])
def test_the_promised_service_is_kept_within_two_points(per_month: float) -> None:
    """0.95 in a seeded simulation of the compound process that knows nothing of our formulas."""
    assert _kept(per_month, seed=1) == pytest.approx(0.95, abs=0.02)


def test_enough_is_not_ordered() -> None:
    """What is there reaches the point."""
    found = order(OFTEN, WEEKLY, Goods(roll_m=ROLL_M), position_m=40)

    assert (found.rolls, found.why) == (0, Why.ENOUGH)
    assert found.covers_days == pytest.approx(40 / 1.5)


def test_the_fewest_rolls_that_reach_the_point_are_ordered_where_no_cost_is_known() -> None:
    """In packs, and no fewer than the supplier sells."""
    goods = Goods(roll_m=10)

    assert reorder_point_m(OFTEN, WEEKLY) == pytest.approx(32.1, abs=0.1)
    assert order(OFTEN, WEEKLY, goods, position_m=5).rolls == 3
    assert order(OFTEN, WEEKLY, Goods(roll_m=10, pack=2), position_m=5).rolls == 4
    assert order(OFTEN, WEEKLY, Goods(roll_m=10, least=7), position_m=5).rolls == 7


def test_a_discount_is_taken_only_as_far_as_it_is_used_in_time() -> None:
    """Ten rolls cost least; at a short life fewer are used before their limit."""
    prices = Prices(order_cost=25, holding_rate=0.25, breaks=[Break(0, 8), Break(10, 6)])

    free = order(OFTEN, WEEKLY, Goods(roll_m=ROLL_M, prices=prices), position_m=12)
    short = order(OFTEN, WEEKLY, Goods(roll_m=ROLL_M, prices=prices, life_days=90), position_m=12)

    assert (free.rolls, free.why, free.more_over_days) == (10, Why.CHEAPEST, None)
    assert (short.rolls, short.why) == (3, Why.LIMIT)
    assert 12 + 3 * ROLL_M <= usable_m(OFTEN, WEEKLY, 90) < 12 + 4 * ROLL_M


def test_what_one_more_roll_would_be_too_old_is_days_of_low_demand() -> None:
    """On that day the tenth part of demand reaches all there is; scipy's quantile says so too."""
    found = order(SELDOM, WEEKLY, Goods(roll_m=ROLL_M, life_days=365), position_m=2)

    assert (found.rolls, found.why) == (1, Why.BELOW)
    assert found.more_over_days is not None
    spread = during(SELDOM, 8 + 365 + found.more_over_days, 9)
    used_m = gamma.ppf(0.1, spread.shape, scale=spread.scale)
    assert used_m == pytest.approx(2 + 2 * ROLL_M, abs=0.1)


def test_a_pack_longer_than_its_life_uses_is_not_ordered() -> None:
    """The point says order, the limit says no."""
    found = order(SELDOM, WEEKLY, Goods(roll_m=ROLL_M, pack=4, life_days=365), position_m=2)

    assert (found.rolls, found.why) == (0, Why.OUTLIVES)


def test_more_wanted_than_lives_is_cut_to_what_does() -> None:
    """The point itself may be beyond the limit."""
    late = Supply(days=60, variance_days2=400, service=0.99)

    found = order(OFTEN, late, Goods(roll_m=10, life_days=20), position_m=40)

    assert found.why is Why.LIMIT
    assert 0 < found.rolls < (found.reorder_point_m - 40) / 10


def test_a_film_nobody_draws_is_never_ordered() -> None:
    """And how long it lasts is not known."""
    assert order(NOTHING, WEEKLY, Goods(roll_m=ROLL_M, life_days=365), position_m=0) == Order(
        reorder_point_m=0, rolls=0, why=Why.ENOUGH, covers_days=None, more_over_days=None
    )


def test_a_lead_time_of_nothing_leaves_the_jump_of_one_draw() -> None:
    """Order when what is left may be less than a draw goes beyond the point."""
    assert reorder_point_m(OFTEN, Supply(days=0)) == pytest.approx(
        gamma.ppf(0.95, 2.46**2 / 4.92, scale=4.92 / 2.46), rel=1e-9
    )
