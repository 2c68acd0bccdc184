"""Running sums over the readings of a sensor, so that any stretch of time costs two look-ups.

    course(at_us, levels, …)     Course, from readings in order of time
      .between(start, end)       Stretch: the amount of that time, and how much of it was measured
      .lines(start, end)         the measured lines of that time, one by one
      .level_at(instant)         the level there, or None where nothing tells it
      .levels_within(start, end) the levels that were read in that time
      .until(instant)            the course of the readings before an instant
      .followed_by(…)            the course with later readings at its end
    under_line                   measure: the area under the line between readings (trapezoid)
    above, below, outside        measures: the seconds spent there, crossings to the instant

Instants are whole microseconds, levels whatever was read: a temperature, a humidity, an ageing
rate. Between two readings the level is a straight line; what it adds is up to the measure. Two
readings further apart than the longest gap tell nothing of the time between them, and nothing is
known before the first reading and after the last. Sums are compensated, and stretches of few
readings added directly, so that a stretch agrees with direct integration to a part in 10⁹.
"""

from array import array
from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from math import fsum, isfinite
from operator import lt, sub
from sys import maxsize
from typing import NamedTuple, Self

SECOND_US = 1_000_000
_FEW = 64  # readings up to which a stretch is added directly

Measure = Callable[[float, float, float], float]
"""What a line adds: from its seconds, and the level at its beginning and at its end."""


def under_line(seconds: float, first: float, last: float) -> float:
    """The area under the line between two levels."""
    return seconds * (first + last) / 2


def above(limit: float) -> Measure:
    """The seconds for which the line is above a limit."""

    def seconds_above(seconds: float, first: float, last: float) -> float:
        low, high = (first, last) if first < last else (last, first)
        if high <= limit:
            return 0.0
        return seconds if low >= limit else seconds * (high - limit) / (high - low)

    return seconds_above


def below(limit: float) -> Measure:
    """The seconds for which the line is below a limit."""
    seconds_above = above(-limit)
    return lambda seconds, first, last: seconds_above(seconds, -first, -last)


def outside(low: float, high: float) -> Measure:
    """The seconds for which the line is below one limit or above another; infinities leave a side open."""
    under, over = below(low), above(high)
    return lambda seconds, first, last: under(seconds, first, last) + over(seconds, first, last)


class Stretch(NamedTuple):
    """What a stretch of time amounts to, as far as it was measured."""

    amount: float
    measured_us: int


class Line(NamedTuple):
    """A stretch in which the level changes evenly, from one level to another."""

    since_us: int
    until_us: int
    first: float
    last: float

    @property
    def seconds(self) -> float:
        """How long it is."""
        return (self.until_us - self.since_us) / SECOND_US


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Course:
    """Readings, and what came together up to each: one item of each array for a reading."""

    at_us: "array[int]"
    levels: "array[float]"
    amounts: "array[float]"
    measured_us: "array[int]"
    measure: Measure
    longest_gap_us: int | None

    def between(self, start_us: int, end_us: int) -> Stretch:
        """What the measured part of a stretch amounts to, and how long that part is."""
        first, last = self._places(start_us, end_us)
        if last - first <= _FEW:
            return self._added(self.lines(start_us, end_us))
        head, head_us = self._part(first, start_us, self.at_us[first + 1])
        tail, tail_us = self._part(last, self.at_us[last], end_us)
        amount = self.amounts[last] - self.amounts[first + 1]
        measured_us = self.measured_us[last] - self.measured_us[first + 1]
        return Stretch(head + amount + tail, head_us + measured_us + tail_us)

    def lines(self, start_us: int, end_us: int) -> Iterator[Line]:
        """The measured lines of a stretch, one by one."""
        first, last = self._places(start_us, end_us)
        for place in range(max(first, 0), last + 1):
            if self._tells(place):
                since = max(start_us, self.at_us[place])
                until = min(end_us, self.at_us[place + 1])
                if since < until:
                    yield Line(since, until, self._level(place, since), self._level(place, until))

    def level_at(self, instant_us: int) -> float | None:
        """The level at an instant, or None where nothing tells it."""
        place = bisect_right(self.at_us, instant_us) - 1
        if place >= 0 and self.at_us[place] == instant_us:
            return self.levels[place]
        return self._level(place, instant_us) if self._tells(place) else None

    def levels_within(self, start_us: int, end_us: int) -> Sequence[float]:
        """The levels that were read in a stretch, its ends included."""
        first, after = bisect_left(self.at_us, start_us), bisect_right(self.at_us, end_us)
        return self.levels[first:after]

    def until(self, instant_us: int) -> Self:
        """The course of the readings before an instant."""
        count = bisect_left(self.at_us, instant_us)
        return type(self)(
            at_us=self.at_us[:count],
            levels=self.levels[:count],
            amounts=self.amounts[:count],
            measured_us=self.measured_us[:count],
            measure=self.measure,
            longest_gap_us=self.longest_gap_us,
        )

    def followed_by(self, at_us: Sequence[int], levels: Sequence[float]) -> Self:
        """The course with later readings at its end."""
        longer = self.until(at_us[0] if at_us else maxsize)
        if len(longer.at_us) < len(self.at_us):
            raise ValueError("readings follow the ones before")
        _append(longer, at_us, levels)
        return longer

    def _places(self, start_us: int, end_us: int) -> tuple[int, int]:
        """The last readings at or before two instants; -1 before the first reading."""
        if end_us < start_us:
            raise ValueError("a stretch ends before it starts")
        first = bisect_right(self.at_us, start_us) - 1
        return first, bisect_right(self.at_us, end_us, max(first, 0)) - 1

    def _tells(self, place: int) -> bool:
        """Whether a reading and the next one tell what was between them."""
        if not 0 <= place < len(self.at_us) - 1:
            return False
        gap_us = self.at_us[place + 1] - self.at_us[place]
        return self.longest_gap_us is None or gap_us <= self.longest_gap_us

    def _level(self, place: int, instant_us: int) -> float:
        """The level at an instant from a reading to the next, on a straight line."""
        since, until = self.at_us[place], self.at_us[place + 1]
        first, last = self.levels[place], self.levels[place + 1]
        if instant_us == until:
            return last
        return first + (last - first) * ((instant_us - since) / (until - since))

    def _part(self, place: int, since_us: int, until_us: int) -> Stretch:
        """What a stretch between a reading and the next amounts to."""
        if since_us == until_us or not self._tells(place):
            return Stretch(0.0, 0)
        first, last = self._level(place, since_us), self._level(place, until_us)
        length_us = until_us - since_us
        return Stretch(self.measure(length_us / SECOND_US, first, last), length_us)

    def _added(self, lines: Iterable[Line]) -> Stretch:
        """What lines amount to together."""
        amounts: list[float] = []
        measured_us = 0
        for line in lines:
            amounts.append(self.measure(line.seconds, line.first, line.last))
            measured_us += line.until_us - line.since_us
        return Stretch(fsum(amounts), measured_us)


def course(
    at_us: Sequence[int],
    levels: Sequence[float],
    measure: Measure = under_line,
    longest_gap_us: int | None = None,
) -> Course:
    """The course of readings in order of time; without a longest gap, all between them counts."""
    made = Course(
        at_us=array("q"),
        levels=array("d"),
        amounts=array("d"),
        measured_us=array("q"),
        measure=measure,
        longest_gap_us=longest_gap_us,
    )
    _append(made, at_us, levels)
    return made


def _append(made: Course, at_us: Sequence[int], levels: Sequence[float]) -> None:
    """Put readings at the end of a course that nobody else holds."""
    if not at_us:
        return
    known = len(made.at_us)
    made.at_us.extend(at_us)
    made.levels.extend(levels)
    since = max(known - 1, 0)  # the reading from which the sums go on
    instants, read = made.at_us[since:], made.levels[since:]
    if not (all(map(lt, instants, instants[1:])) and all(map(isfinite, read))):
        raise ValueError("readings are numbers in order of time, one at an instant")
    longest_us = maxsize if made.longest_gap_us is None else made.longest_gap_us
    lengths_us = [
        gap_us if gap_us <= longest_us else 0 for gap_us in map(sub, instants[1:], instants)
    ]
    terms = (
        made.measure(length_us / SECOND_US, first, last) if length_us else 0.0
        for length_us, (first, last) in zip(lengths_us, pairwise(read), strict=True)
    )
    made.measured_us.extend(accumulate(lengths_us, initial=made.measured_us.pop() if known else 0))
    made.amounts.extend(_running(terms, made.amounts.pop() if known else 0.0))


def _running(terms: Iterable[float], total: float) -> Iterator[float]:
    """A total, and what it comes to with each further term; errors are carried on (Kahan)."""
    yield total
    lost = 0.0
    for each in terms:
        term = each - lost
        longer = total + term
        lost = (longer - total) - term
        yield (total := longer)
