"""What grows too old on the shelf, counted by hand."""

import pytest

from stockroom.plan.rundown import Dated, run_down

WEEK = 7


@pytest.mark.parametrize(
    ("per_week", "lots", "lost"),
    [
        (6, [(20, 2), (30, 10), (30, 40)], [8, 0, 0]),
        (2, [(30.5, 8), (30.5, 30), (61, 52)], [14.5, 0, 3.5]),
        (2, [(61, 52), (30.5, 8), (30.5, 30)], [3.5, 14.5, 0]),
        (0, [(5, None), (5, 3)], [0, 5]),
        (1, [(100, None)], [0]),
        (1, [(4, 0), (4, 4)], [4, 0]),
        (3, [], []),
    ],
)
def test_the_first_to_expire_is_used_first_and_what_is_left_of_it_is_lost(
    per_week: float, lots: list[tuple[float, float | None]], lost: list[float]
) -> None:
    """In weeks; the order in which lots are named does not count."""
    dated = [Dated(amount, None if weeks is None else weeks * WEEK) for amount, weeks in lots]

    assert run_down(dated, per_week / WEEK) == pytest.approx(tuple(lost))
