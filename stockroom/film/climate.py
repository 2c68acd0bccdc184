"""What the air was like over a stretch of time: its temperature or its humidity, from readings.

    climate(course, …)             Climate of a stretch; None where no reading tells
    Climate                        mean, lowest, highest, hours outside a band, hours measured
    Band                           within which the air should be; an infinity leaves a side open
    is_temperature, is_humidity    whether a reading can be one of a store

The mean is weighted by duration. Between two readings the air is taken to change evenly, so that it
crosses a limit at one instant. A gap longer than the limit of the course, and the time before the
first reading and after the last, is not known and counts nowhere.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import fsum, inf

from stockroom.film.course import Course, Line, outside, under_line

HOUR_S = 3_600
COLDEST_C, HOTTEST_C = -60.0, 100.0  # outside: a broken sensor, not a store
WETTEST_PCT = 100.0


def is_temperature(temperature_c: float) -> bool:
    """Whether a store or a test oven can have it; what is no number cannot."""
    return COLDEST_C <= temperature_c <= HOTTEST_C


def is_humidity(humidity_pct: float) -> bool:
    """Whether air can have it; what is no number cannot."""
    return 0 <= humidity_pct <= WETTEST_PCT


@dataclass(frozen=True, slots=True)
class Band:
    """From where to where the air should be; an infinity leaves a side open."""

    low: float = -inf
    high: float = inf

    def __post_init__(self) -> None:
        if not self.low <= self.high:
            raise ValueError(f"no band goes from {self.low} to {self.high}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Climate:
    """What the air was like, as far as it was measured; no mean where no time was."""

    mean: float | None
    lowest: float
    highest: float
    hours_outside: float
    hours_measured: float


def climate(course: Course, start_s: int, end_s: int, band: Band) -> Climate | None:
    """What the air was like in a stretch, by a course whose levels it is; None where nothing tells."""
    lines = list(course.lines(start_s, end_s))
    seen = [*course.levels_within(start_s, end_s), *_ends(lines)]
    if not seen:
        return None
    seconds_outside = outside(band.low, band.high)
    seconds = fsum(line.seconds for line in lines)
    area = fsum(under_line(line.seconds, line.first, line.last) for line in lines)
    out = fsum(seconds_outside(line.seconds, line.first, line.last) for line in lines)
    return Climate(
        mean=area / seconds if seconds else None,
        lowest=min(seen),
        highest=max(seen),
        hours_outside=out / HOUR_S,
        hours_measured=seconds / HOUR_S,
    )


def _ends(lines: Iterable[Line]) -> Iterator[float]:
    """The levels at which lines begin and end."""
    for line in lines:
        yield from (line.first, line.last)
