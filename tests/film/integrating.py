"""Direct integration of a stretch, reading by reading: no sums kept, nothing looked up."""

from collections.abc import Callable, Sequence
from math import fsum

Readings = Sequence[tuple[int, float]]
Measure = Callable[[float, float, float], float]


def measured_lines(
    readings: Readings, start_us: int, end_us: int, longest_gap_us: int | None
) -> list[tuple[float, float, float]]:
    """Seconds, first and last level of whatever lies between two readings that are near enough."""
    lines: list[tuple[float, float, float]] = []
    for number in range(1, len(readings)):
        (since, first), (until, last) = readings[number - 1], readings[number]
        if longest_gap_us is not None and until - since > longest_gap_us:
            continue
        begins, ends = max(since, start_us), min(until, end_us)
        if begins >= ends:
            continue
        slope = (last - first) / (until - since)
        lines.append(
            (
                (ends - begins) / 1e6,
                first + slope * (begins - since),
                first + slope * (ends - since),
            )
        )
    return lines


def directly(
    readings: Readings,
    start_us: int,
    end_us: int,
    longest_gap_us: int | None,
    measure: Measure = lambda seconds, first, last: seconds * (first + last) / 2,
) -> tuple[float, float]:
    """What the measured part of a stretch amounts to, and its seconds."""
    lines = measured_lines(readings, start_us, end_us, longest_gap_us)
    return fsum(measure(*line) for line in lines), fsum(seconds for seconds, _, _ in lines)
