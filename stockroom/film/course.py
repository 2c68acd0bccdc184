"""Running sums over the readings of a sensor, so that any stretch of time costs two look-ups.

    course(at_s, levels, …)     Course, from readings in order of time
      .between(start, end)       Stretch: the amount of that time, and how much of it was measured
      .lines(start, end)         the measured lines of that time, one by one
      .upto(instant)             the same of all the time before an instant
      .level_at(instant)         the level there, or None where nothing tells it
      .levels_within(start, end) the levels that were read in that time
      .until(instant)            the course of the readings before an instant
      .followed_by(…)            the course with later readings at its end
    measured(at_s, gap)          the measured seconds up to each reading
    under_line                   measure: the area under the line between readings (trapezoid)
    above, below, outside        measures: the seconds spent there, crossings to the instant

Instants are whole seconds, levels whatever was read: a temperature, a humidity, an ageing
rate. Between two readings the level is a straight line; what it adds is up to the measure. Two
readings further apart than the longest gap tell nothing of the time between them, and nothing is
known before the first reading and after the last. Sums are compensated, and stretches of few
readings added directly, so that a stretch agrees with direct integration to a part in 10⁹.
"""

from array import array
from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate
from math import fsum, isfinite
from operator import lt, sub
from sys import maxsize
from typing import NamedTuple, Protocol, Self

_FEW = 64  # readings up to which a stretch is added directly

Measure = Callable[[float, float, float], float]
"""What a line adds: from its seconds, and the level at its beginning and at its end.

Nothing, in no seconds.
"""


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

    def seconds_outside(seconds: float, first: float, last: float) -> float:
        if low <= first <= high and low <= last <= high:
            return 0.0
        return under(seconds, first, last) + over(seconds, first, last)

    return seconds_outside


class Summed(Protocol):
    """Whatever can tell what a stretch amounts to."""

    def between(self, start_s: int, end_s: int) -> "Stretch":
        """What the measured part of a stretch amounts to, and how long that part is."""
        ...


class Stretch(NamedTuple):
    """What a stretch of time amounts to, as far as it was measured."""

    amount: float
    measured_s: int


class Line(NamedTuple):
    """A stretch in which the level changes evenly, from one level to another."""

    since_s: int
    until_s: int
    first: float
    last: float

    @property
    def seconds(self) -> int:
        """How long it is."""
        return self.until_s - self.since_s


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Course:
    """Readings, and what came together up to each: one item of each sequence for a reading."""

    at_s: Sequence[int]
    levels: Sequence[float]
    amounts: Sequence[float]
    measured_s: Sequence[int]
    measure: Measure
    longest_gap_s: int | None

    def between(self, start_s: int, end_s: int) -> Stretch:
        """What the measured part of a stretch amounts to, and how long that part is."""
        first, last = self._places(start_s, end_s)
        if last - first <= _FEW:
            return self._added(self.lines(start_s, end_s))
        head, head_s = self._part(first, start_s, self.at_s[first + 1])
        tail, tail_s = self._part(last, self.at_s[last], end_s)
        amount = self.amounts[last] - self.amounts[first + 1]
        measured_s = self.measured_s[last] - self.measured_s[first + 1]
        return Stretch(head + amount + tail, head_s + measured_s + tail_s)

    def upto(self, instant_s: int) -> Stretch:
        """What the measured part of all the time before an instant amounts to."""
        at_s = self.at_s
        if isinstance(at_s, range):  # even steps, as loggers mostly take them
            place = min((instant_s - at_s.start) // at_s.step, len(at_s) - 1)
        else:
            place = bisect_right(at_s, instant_s) - 1
        if place < 0:
            return Stretch(0.0, 0)
        since_s = at_s[place]
        amount, measured_s, seconds = (
            self.amounts[place],
            self.measured_s[place],
            instant_s - since_s,
        )
        if not seconds or not self._tells(place):
            return Stretch(amount, measured_s)
        first, last = self.levels[place], self.levels[place + 1]
        here = first + (last - first) * (seconds / (at_s[place + 1] - since_s))
        return Stretch(amount + self.measure(seconds, first, here), measured_s + seconds)

    def lines(self, start_s: int, end_s: int) -> Iterator[Line]:
        """The measured lines of a stretch, one by one."""
        first, last = self._places(start_s, end_s)
        for place in range(max(first, 0), last + 1):
            if self._tells(place):
                since = max(start_s, self.at_s[place])
                until = min(end_s, self.at_s[place + 1])
                if since < until:
                    yield Line(since, until, self._level(place, since), self._level(place, until))

    def level_at(self, instant_s: int) -> float | None:
        """The level at an instant, or None where nothing tells it."""
        place = bisect_right(self.at_s, instant_s) - 1
        if place >= 0 and self.at_s[place] == instant_s:
            return self.levels[place]
        return self._level(place, instant_s) if self._tells(place) else None

    def levels_within(self, start_s: int, end_s: int) -> Sequence[float]:
        """The levels that were read in a stretch, its ends included."""
        first, after = bisect_left(self.at_s, start_s), bisect_right(self.at_s, end_s)
        return self.levels[first:after]

    def until(self, instant_s: int) -> Self:
        """The course of the readings before an instant."""
        count = bisect_left(self.at_s, instant_s)
        return type(self)(
            at_s=self.at_s[:count],
            levels=self.levels[:count],
            amounts=self.amounts[:count],
            measured_s=self.measured_s[:count],
            measure=self.measure,
            longest_gap_s=self.longest_gap_s,
        )

    def followed_by(self, at_s: Sequence[int], levels: Sequence[float]) -> Self:
        """The course with later readings at its end."""
        known = max(len(self.at_s) - 1, 0)  # the sums go on from the last reading
        instants = array("q", [*self.at_s[known:], *at_s])
        read = array("d", [*self.levels[known:], *levels])
        if not (all(map(lt, instants, instants[1:])) and all(map(isfinite, read))):
            raise ValueError("readings are numbers in order of time, one at an instant")
        if not instants:
            return self
        lengths_s = _lengths(instants, self.longest_gap_s)
        terms = map(self.measure, lengths_s, read, read[1:])
        amount, measured_s = (self.amounts[-1], self.measured_s[-1]) if self.at_s else (0.0, 0)
        return replace(
            self,
            at_s=array("q", self.at_s[:known]) + instants,
            levels=array("d", self.levels[:known]) + read,
            amounts=array("d", [*self.amounts[:known], *_running(terms, amount)]),
            measured_s=array(
                "q", [*self.measured_s[:known], *accumulate(lengths_s, initial=measured_s)]
            ),
        )

    def _places(self, start_s: int, end_s: int) -> tuple[int, int]:
        """The last readings at or before two instants; -1 before the first reading."""
        if end_s < start_s:
            raise ValueError("a stretch ends before it starts")
        first = bisect_right(self.at_s, start_s) - 1
        return first, bisect_right(self.at_s, end_s, max(first, 0)) - 1

    def _tells(self, place: int) -> bool:
        """Whether a reading and the next one tell what was between them."""
        if not 0 <= place < len(self.at_s) - 1:
            return False
        gap_s = self.at_s[place + 1] - self.at_s[place]
        return self.longest_gap_s is None or gap_s <= self.longest_gap_s

    def _level(self, place: int, instant_s: int) -> float:
        """The level at an instant from a reading to the next, on a straight line."""
        since, until = self.at_s[place], self.at_s[place + 1]
        first, last = self.levels[place], self.levels[place + 1]
        if instant_s == until:
            return last
        return first + (last - first) * ((instant_s - since) / (until - since))

    def _part(self, place: int, since_s: int, until_s: int) -> Stretch:
        """What a stretch between a reading and the next amounts to."""
        if since_s == until_s or not self._tells(place):
            return Stretch(0.0, 0)
        first, last = self._level(place, since_s), self._level(place, until_s)
        seconds = until_s - since_s
        return Stretch(self.measure(seconds, first, last), seconds)

    def _added(self, lines: Iterable[Line]) -> Stretch:
        """What lines amount to together."""
        amounts: list[float] = []
        measured_s = 0
        for line in lines:
            amounts.append(self.measure(line.seconds, line.first, line.last))
            measured_s += line.seconds
        return Stretch(fsum(amounts), measured_s)


def course(
    at_s: Sequence[int],
    levels: Sequence[float],
    measure: Measure = under_line,
    longest_gap_s: int | None = None,
) -> Course:
    """The course of readings in order of time; without a longest gap, all between them counts."""
    nothing = Course(
        at_s=array("q"),
        levels=array("d"),
        amounts=array("d"),
        measured_s=array("q"),
        measure=measure,
        longest_gap_s=longest_gap_s,
    )
    return nothing.followed_by(at_s, levels)


def measured(at_s: Sequence[int], longest_gap_s: int | None) -> "array[int]":
    """How much of the time up to each reading was measured, in seconds."""
    return array("q", accumulate(_lengths(at_s, longest_gap_s), initial=0))


def _lengths(at_s: Sequence[int], longest_gap_s: int | None) -> list[int]:
    """The seconds from each reading to the next; none where they are too far apart."""
    longest_s = maxsize if longest_gap_s is None else longest_gap_s
    return [gap if gap <= longest_s else 0 for gap in map(sub, at_s[1:], at_s)]


def _running(terms: Iterable[float], total: float) -> Iterator[float]:
    """A total, and what it comes to with each further term; errors are carried on (Kahan)."""
    yield total
    lost = 0.0
    for each in terms:
        term = each - lost
        longer = total + term
        lost = (longer - total) - term
        yield (total := longer)
