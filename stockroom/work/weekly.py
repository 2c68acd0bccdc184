"""What there was week by week, from changes in the order of time."""

from collections.abc import Iterable

from stockroom.work.zone_plot import Level, Levels

WEEKS = 52
"""So many weeks back."""


def weekly(changes: Iterable[tuple[int, float]]) -> Levels:
    """The least, the last and the most in each of the weeks; those before the first count as below 0."""
    now = 0.0
    weeks: list[Level] = []
    for week, amount in changes:
        weeks += [Level(now, now, now)] * (week + 1 - len(weeks))
        now = max(0.0, now + amount)
        if week >= 0:
            low, _, high = weeks[week]
            weeks[week] = Level(min(low, now), now, max(high, now))
    return (*weeks, *[Level(now, now, now)] * (WEEKS - len(weeks)))
