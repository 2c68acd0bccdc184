"""What is left of a stock in the weeks to come: at the mean demand, and between a high and a low one.

ahead(lots, demand, …)       Left at the end of each week
left_after(lots, used)       what is left of lots when so much was used by the end of each week
"""

from collections.abc import Sequence
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


def ahead(lots: Sequence[Dated], demand: Demand, weeks: int, kept: float = 0.0) -> tuple[Left, ...]:
    """What is left at the end of each week, if nothing comes; what is kept for jobs goes first."""
    spreads = [during(demand, WEEK * week) for week in range(1, weeks + 1)]
    low, mean, high = (
        left_after(lots, [kept + used for used in cumulated])
        for cumulated in (
            [quantile(_LOW, one) for one in spreads],
            [one.mean for one in spreads],
            [quantile(1 - _LOW, one) for one in spreads],
        )
    )
    return tuple(map(Left, high, mean, low))


def left_after(lots: Sequence[Dated], used: Sequence[float]) -> tuple[float, ...]:
    """What is left at the end of each week, where `used` is all that was used by then.

    What ends first is used first, until the end of the week in which it ends; the rest is lost.
    """
    queue = sorted(([one.end, one.amount] for one in lots if one.end > 0), reverse=True)
    found: list[float] = []
    so_far = 0.0
    for week, all_used in enumerate(used, start=1):
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
