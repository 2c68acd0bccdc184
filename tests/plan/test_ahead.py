"""What is left in the weeks to come, counted by hand and beside what is lost to age."""

import pytest

from stockroom.plan.ahead import Coming, Left, ahead, left_after
from stockroom.plan.demand import NOTHING, Demand
from stockroom.plan.rundown import Dated, run_down

WEEK = 7


@pytest.mark.parametrize(
    ("lots", "used", "left"),
    [
        ([(20, 14), (30, None)], [6, 12, 18], [44, 30, 24]),
        ([(30, None), (20, 14)], [6, 12, 18], [44, 30, 24]),
        ([(5, 0), (5, 7)], [1, 1], [0, 0]),
        ([(5, None)], [3, 9, 9], [2, 0, 0]),
        ([], [1, 2], [0, 0]),
    ],
)
def test_what_ends_first_is_used_first_and_the_rest_of_it_is_lost(
    lots: list[tuple[float, float | None]], used: list[float], left: list[float]
) -> None:
    """The order in which lots are named does not count."""
    assert left_after([Dated(*one) for one in lots], used) == tuple(left)


def test_what_comes_is_there_from_its_week_on_and_keeps_as_it_says() -> None:
    """What is late comes in the first week; what was wanted before it came is not taken from it."""
    coming = [Coming(-3, Dated(1, None)), Coming(8, Dated(10, 21)), Coming(15, Dated(5, None))]

    left = left_after([Dated(2, None)], [5, 5, 6, 6], coming)

    assert left == (0, 10, 5, 5)


def test_in_the_end_only_what_was_used_and_lost_is_gone() -> None:
    """By the same rule as the sum of what is lost: lots that end with a week, at a steady demand."""
    lots = [Dated(20, 2 * WEEK), Dated(30, 10 * WEEK), Dated(90, 40 * WEEK)]
    weeks, a_week = 45, 1.0

    left = left_after(lots, [a_week * week for week in range(1, weeks + 1)])

    lost = sum(run_down(lots, a_week / WEEK))
    used = a_week * 40  # in the 40th week nothing is left
    assert left[38] == pytest.approx(90 - (39 - 10) * a_week)
    assert sum(one.amount for one in lots) - used - lost == pytest.approx(left[-1]) == 0


def test_a_high_demand_leaves_least_and_what_is_kept_goes_first() -> None:
    """The mean lies between them, and nothing is drawn where there is no demand."""
    demand = Demand(draws_per_day=0.5, draw_mean_m=1.0, draw_variance_m2=0.5)
    lots = [Dated(60.0, None)]

    found = ahead(lots, demand, 4, kept=10.0)

    assert [one.mean for one in found] == pytest.approx([46.5, 43.0, 39.5, 36.0])
    assert all(one.lowest < one.mean < one.highest < 50 for one in found)
    assert ahead(lots, NOTHING, 2) == (Left(60.0, 60.0, 60.0),) * 2
