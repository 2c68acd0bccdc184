"""Readings to age film by, so that a test names only temperatures and days."""

from collections.abc import Iterable

HOUR_S = 3_600
DAY_S = 24 * HOUR_S


def steps(spells: Iterable[tuple[float, float]]) -> tuple[list[int], list[float]]:
    """Readings of spells of days at one temperature each; between two lies a second."""
    at_s: list[int] = []
    levels: list[float] = []
    end_s = 0
    for days, level in spells:
        start_s, end_s = end_s, end_s + round(days * DAY_S)
        at_s += [start_s + (1 if at_s else 0), end_s]
        levels += [level, level]
    return at_s, levels


def ramp(first: float, last: float, count: int) -> tuple[list[int], list[float]]:
    """Hourly readings that rise evenly."""
    rise = (last - first) / (count - 1)
    return [number * HOUR_S for number in range(count)], [
        first + rise * number for number in range(count)
    ]
