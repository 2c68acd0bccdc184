"""What is left of a stock in the weeks to come: at the mean demand, and between a high and a low one.

ahead(lots, demand, …)       Left at the end of each week
left_after(lots, used, …)    what is left of lots when so much was used by the end of each week
"""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from stockroom.plan.demand import WEEK, Demand
from stockroom.plan.gamma import quantile
from stockroom.plan.reorder import during
from stockroom.plan.rundown import Dated

_LOW = 0.1
"""The chance that demand is lower, or higher, than the ends of what is shown."""


class Left(NamedTuple):
    """What is left at the end of a week: if demand is high, is what it is on average, is low."""

    lowest: float
    mean: float
    highest: float


class Coming(NamedTuple):
    """What comes in so many days, and then keeps as it says; its days are counted from now."""

    in_days: float
    lot: Dated


def ahead(
    lots: Sequence[Dated],
    demand: Demand,
    weeks: int,
    kept: float = 0.0,
    coming: Iterable[Coming] = (),
) -> tuple[Left, ...]:
    """What is left at the end of each week, with what comes; what is kept for jobs goes first."""
    on_its_way = tuple(coming)
    spreads = [during(demand, WEEK * week) for week in range(1, weeks + 1)]
    low, mean, high = (
        left_after(lots, [kept + used for used in cumulated], on_its_way)
        for cumulated in (
            [quantile(_LOW, one) for one in spreads],
            [one.mean for one in spreads],
            [quantile(1 - _LOW, one) for one in spreads],
        )
    )
    return tuple(map(Left, high, mean, low))


def left_after(
    lots: Sequence[Dated], used: Sequence[float], coming: Iterable[Coming] = ()
) -> tuple[float, ...]:
    """What is left at the end of each week, where `used` is all that was wanted by then.

    What ends first is used first, until the end of the week in which it ends; the rest is lost. What
    comes is there from the beginning of its week; what was wanted before is not taken from it.
    """
    on_its_way = tuple(coming)
    queue = [[one.end, one.amount] for one in lots if one.end > 0]
    found: list[float] = []
    so_far = 0.0
    for week, all_used in enumerate(used, start=1):
        queue += [[one.lot.end, one.lot.amount] for one in on_its_way if _week(one) == week]
        queue.sort(reverse=True)
        wanted, so_far = all_used - so_far, all_used
        while queue and wanted > 0:
            taken = min(wanted, queue[-1][1])
            queue[-1][1] -= taken
            wanted -= taken
            if not queue[-1][1]:
                queue.pop()
        while queue and queue[-1][0] <= week * WEEK:
            queue.pop()
        found.append(sum(amount for _, amount in queue))
    return tuple(found)


def _week(one: Coming) -> int:
    """The week in which something comes, the first one where it is late."""
    return max(0, int(one.in_days) - 1) // WEEK + 1
