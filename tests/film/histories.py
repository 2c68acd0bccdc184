"""Readings to age film by, so that a test names only temperatures and days."""

from collections.abc import Iterable

HOUR_US = 3_600_000_000
DAY_US = 24 * HOUR_US


def steps(spells: Iterable[tuple[float, float]]) -> tuple[list[int], list[float]]:
    """Readings of spells of days at one temperature each; between two lies a microsecond."""
    at_us: list[int] = []
    levels: list[float] = []
    end_us = 0
    for days, level in spells:
        start_us, end_us = end_us, end_us + round(days * DAY_US)
        at_us += [start_us + (1 if at_us else 0), end_us]
        levels += [level, level]
    return at_us, levels


def ramp(first: float, last: float, count: int) -> tuple[list[int], list[float]]:
    """Hourly readings that rise evenly."""
    rise = (last - first) / (count - 1)
    return [number * HOUR_US for number in range(count)], [
        first + rise * number for number in range(count)
    ]
