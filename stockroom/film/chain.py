"""A course too long to be held at once: in links, each fetched when an instant falls into it.

Link                     from one reading to another, and what came together between them
Chain(links, fetch)      links that follow each other: where one ends, the next begins
  .between(start, end)   Stretch, as one course of all the readings would tell it
  .amount                what all of it amounts to
"""

from bisect import bisect_right
from collections.abc import Callable, Sequence
from itertools import accumulate
from typing import NamedTuple

from stockroom.film.course import Course, Stretch

_LEAST_SHARE = 1e-5
"""A smaller part of all that came together would lose too many digits as a difference."""


class Link(NamedTuple):
    """A part of a course: its first and last reading, and what it amounts to."""

    since_s: int
    until_s: int
    amount: float
    measured_s: int


_UpTo = tuple[int, float, int]
"""The link an instant lies in, what came together up to it, and how much of that was measured."""


class Chain:
    """A course in links; the last reading of each is the first of the next one.

    What came together up to an instant is kept, for many stretches end at the same one.
    """

    def __init__(self, links: Sequence[Link], fetch: Callable[[int], Course]) -> None:
        self._fetch = fetch
        self._since_s = [link.since_s for link in links]
        self._amounts = list(accumulate((link.amount for link in links), initial=0.0))
        self._measured_s = list(accumulate((link.measured_s for link in links), initial=0))
        self._known: dict[int, _UpTo] = {}

    @property
    def amount(self) -> float:
        """What all of it amounts to."""
        return self._amounts[-1]

    def between(self, start_s: int, end_s: int) -> Stretch:
        """What the measured part of a stretch amounts to, and how long that part is."""
        if end_s < start_s:
            raise ValueError("a stretch ends before it starts")
        if not self._since_s:
            return Stretch(0.0, 0)
        first, before, before_s = self._known.get(start_s) or self._upto(start_s)
        last, upto, upto_s = self._known.get(end_s) or self._upto(end_s)
        amount = upto - before
        if amount >= upto * _LEAST_SHARE or last - first > 1:
            return Stretch(amount, upto_s - before_s)
        return self._exactly(first, start_s, last, end_s)

    def _exactly(self, first: int, start_s: int, last: int, end_s: int) -> Stretch:
        """A little of one link or of two, which would be lost in the sums before it."""
        if first == last:
            return self._fetch(first).between(start_s, end_s)
        joint_s = self._since_s[last]
        head = self._fetch(first).between(start_s, joint_s)
        tail = self._fetch(last).between(joint_s, end_s)
        return Stretch(head.amount + tail.amount, head.measured_s + tail.measured_s)

    def _upto(self, instant_s: int) -> _UpTo:
        """What came together up to an instant, in the first or the last link where it is in none."""
        place = max(bisect_right(self._since_s, instant_s) - 1, 0)
        amount, measured_s = self._fetch(place).upto(instant_s)
        found = place, self._amounts[place] + amount, self._measured_s[place] + measured_s
        self._known[instant_s] = found
        return found
