"""What of a stock grows too old before it is used, if the oldest is always taken first.

Dated(amount, days_left)     film or goods that keep for so many days more, or for ever
run_down(lots, per_day)      how much of each is lost
"""

from collections.abc import Sequence
from math import inf
from typing import NamedTuple


class Dated(NamedTuple):
    """So much that may be used for so many days more; None: it has no limit."""

    amount: float
    days_left: float | None

    @property
    def end(self) -> float:
        """The days it keeps; infinity where it has no limit."""
        return inf if self.days_left is None else self.days_left


def run_down(lots: Sequence[Dated], per_day: float) -> tuple[float, ...]:
    """How much of each lot is left when its days are over; the one that ends first is used first."""
    lost = [0.0] * len(lots)
    day = 0.0
    for place in sorted(range(len(lots)), key=lambda one: lots[one].end):
        amount, end = lots[place].amount, lots[place].end
        used = amount if end == inf else min(amount, per_day * max(0.0, end - day))
        lost[place] = amount - used
        day += used / per_day if per_day else 0.0
    return tuple(lost)
