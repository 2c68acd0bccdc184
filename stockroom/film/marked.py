"""A course of which the running sum is known at every fourth reading, as it is stored.

    marked(…)     Course, from its readings and the sums at the first, fifth, ninth of them
    Marks         the sum at each reading: the one before that is known, and what came since

The sums between are a line or three further on than one that is known: a quarter of the room, for a
little more of the time.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from sys import maxsize
from typing import overload

from stockroom.film.course import Course, Measure, Stretch

EACH = 4


def marked(
    *,
    at_s: Sequence[int],
    levels: Sequence[float],
    known: Sequence[float],
    measured_s: Sequence[int],
    measure: Measure,
    longest_gap_s: int | None,
) -> Course:
    """The course of readings of which every fourth sum is known; where none is, all are nothing."""
    made = _Marked(
        at_s=at_s,
        levels=levels,
        amounts=(),
        measured_s=measured_s,
        measure=measure,
        longest_gap_s=longest_gap_s,
        known=known,
    )
    return replace(made, amounts=Marks(made, known))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Marked(Course):
    """The same; an instant among even readings without a gap, as most are, is found in one go."""

    known: Sequence[float]

    def upto(self, instant_s: int) -> Stretch:
        at_s = self.at_s
        if not (isinstance(at_s, range) and isinstance(self.measured_s, range) and self.known):
            return Course.upto(self, instant_s)
        step_s = at_s.step
        place, seconds = divmod(instant_s - at_s.start, step_s)
        if not 0 <= place < len(at_s) - 1:
            return Course.upto(self, instant_s)
        levels, measure = self.levels, self.measure
        mark, further = divmod(place, EACH)
        amount, level = self.known[mark], levels[place - further]
        for after in range(place - further + 1, place + 1):
            here = levels[after]
            amount += measure(step_s, level, here)
            level = here
        if seconds:
            here = level + (levels[place + 1] - level) * (seconds / step_s)
            amount += measure(seconds, level, here)
        return Stretch(amount, place * step_s + seconds)


class Marks(Sequence[float]):
    """The running sum at each reading of a course."""

    def __init__(self, of: Course, known: Sequence[float]) -> None:
        self._at_s = of.at_s
        self._levels = of.levels
        self._measure = of.measure
        self._longest_s = maxsize if of.longest_gap_s is None else of.longest_gap_s
        self._known = known

    def __len__(self) -> int:
        return len(self._at_s)

    @overload
    def __getitem__(self, place: int) -> float: ...

    @overload
    def __getitem__(self, place: slice) -> list[float]: ...

    def __getitem__(self, place: int | slice) -> float | list[float]:
        if isinstance(place, slice):
            return [self[one] for one in range(*place.indices(len(self)))]
        if not self._known:
            return 0.0 * self._at_s[place]  # nothing, and an error past the end
        mark, further = divmod(place if place >= 0 else place + len(self), EACH)
        amount = self._known[mark]
        if further:
            at_s, levels = self._at_s, self._levels
            first = mark * EACH
            level = levels[first]
            for after in range(first + 1, first + further + 1):
                seconds, here = at_s[after] - at_s[after - 1], levels[after]
                if seconds <= self._longest_s:
                    amount += self._measure(seconds, level, here)
                level = here
        return amount
