"""Draws become demand: what came back is taken off, weeks are whole, a pattern has a name."""

from datetime import date, timedelta

import pytest

from stockroom.plan.demand import (
    NOTHING,
    Demand,
    Draw,
    Pattern,
    demand_of,
    net,
    now_of,
    pattern_of,
    weekly_m,
)

MONDAY = date(2026, 11, 2)


def _draw(day: int, length_m: float, whom: str = "A") -> Draw:
    return Draw(MONDAY + timedelta(days=day), length_m, whom)


def test_cuts_of_a_day_for_one_job_are_one_draw() -> None:
    """Four panes cut one by one are wanted together."""
    assert net([_draw(0, 2), _draw(0, 3), _draw(0, 1, "B"), _draw(1, 4)]) == (
        _draw(0, 5),
        _draw(0, 1, "B"),
        _draw(1, 4),
    )


def test_what_came_back_is_taken_off_the_newest_draws_of_that_job() -> None:
    """A draw that came back whole is none."""
    draws = [_draw(0, 5), _draw(1, 2), _draw(1, 9, "B"), _draw(3, -3), _draw(4, 6)]

    assert net(draws) == (_draw(0, 4), _draw(1, 9, "B"), _draw(4, 6))


def test_more_that_came_back_than_was_drawn_leaves_nothing_below_zero() -> None:
    """It was drawn before the draws begin."""
    assert net([_draw(0, 2), _draw(1, -5), _draw(2, 3)]) == (_draw(2, 3),)


def test_demand_is_a_rate_a_mean_and_a_variance() -> None:
    """Of 1, 2 and 6 m in 30 days, calculated by hand."""
    demand = demand_of([_draw(0, 1), _draw(9, 2), _draw(20, 6)], 30)

    assert demand == Demand(draws_per_day=0.1, draw_mean_m=3, draw_variance_m2=7)
    assert demand.per_day_m == pytest.approx(0.3)
    assert demand.mean_square_m2 == 16


def test_one_huge_job_is_taken_to_vary_and_none_is_nothing() -> None:
    """A single length has no variance of its own."""
    assert demand_of([_draw(0, 40)], 365).draw_variance_m2 == 1_600
    assert demand_of([], 365) == NOTHING


def test_weeks_are_whole_and_end_on_the_last_day() -> None:
    """The days before the first whole week are left out."""
    draws = [_draw(0, 9), _draw(2, 1), _draw(8, 2), _draw(9, 4), _draw(15, 8)]

    assert weekly_m(draws, MONDAY, MONDAY + timedelta(days=15)) == (3, 12)
    assert weekly_m(draws, MONDAY, MONDAY + timedelta(days=5)) == ()


@pytest.mark.parametrize(
    ("weeks", "pattern"),
    [
        ([3, 4, 5, 4, 3, 4], Pattern.SMOOTH),
        ([1, 1, 12, 1, 1, 9, 1], Pattern.ERRATIC),
        ([0, 4, 0, 0, 5, 0, 4, 0], Pattern.INTERMITTENT),
        ([0, 1, 0, 0, 15, 0, 1, 0], Pattern.LUMPY),
        ([4] * 26 + [0] * 20, Pattern.DYING),
        ([4] * 26 + [0] * 14, Pattern.INTERMITTENT),
        ([4] * 26 + [0] * 6, Pattern.SMOOTH),
        ([4, 4, 4], Pattern.NEW),
        ([0] * 40, Pattern.NONE),
    ],
)
def test_a_pattern_by_how_seldom_and_how_uneven(weeks: list[float], pattern: Pattern) -> None:
    """Cut-offs 1.32 and 0.49 as published; dying by decay."""
    assert pattern_of(weeks) is pattern


def test_dying_demand_counts_as_what_is_left_of_it_and_other_demand_as_it_is() -> None:
    """A weight of 0.1: each empty week leaves nine tenths of the chance."""
    demand = Demand(draws_per_day=1, draw_mean_m=4, draw_variance_m2=1)
    dying = [4.0] * 26 + [0.0] * 26

    assert now_of(demand, [4.0] * 52) == demand
    assert now_of(demand, dying).draws_per_day == pytest.approx((1 - 0.9**26 / 2) * 0.9**26 * 2)
