"""Direct integration of a stretch, reading by reading: no sums kept, nothing looked up."""

from collections.abc import Callable, Sequence
from math import fsum

Readings = Sequence[tuple[int, float]]
Measure = Callable[[float, float, float], float]


def measured_lines(
    readings: Readings, start_s: int, end_s: int, longest_gap_s: int | None
) -> list[tuple[float, float, float]]:
    """Seconds, first and last level of whatever lies between two readings that are near enough."""
    lines: list[tuple[float, float, float]] = []
    for number in range(1, len(readings)):
        (since, first), (until, last) = readings[number - 1], readings[number]
        if longest_gap_s is not None and until - since > longest_gap_s:
            continue
        begins, ends = max(since, start_s), min(until, end_s)
        if begins >= ends:
            continue
        slope = (last - first) / (until - since)
        lines.append(
            (
                ends - begins,
                first + slope * (begins - since),
                first + slope * (ends - since),
            )
        )
    return lines


def directly(
    readings: Readings,
    start_s: int,
    end_s: int,
    longest_gap_s: int | None,
    measure: Measure = lambda seconds, first, last: seconds * (first + last) / 2,
) -> tuple[float, float]:
    """What the measured part of a stretch amounts to, and its seconds."""
    lines = measured_lines(readings, start_s, end_s, longest_gap_s)
    return fsum(measure(*line) for line in lines), fsum(seconds for seconds, _, _ in lines)
