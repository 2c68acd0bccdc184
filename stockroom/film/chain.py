"""A course too long to be held at once: in links, each fetched when an instant falls into it.

Link                     from one reading to another, and what came together between them
Chain(links, fetch)      links that follow each other: where one ends, the next begins
  .between(start, end)   Stretch, as one course of all the readings would tell it
"""

from bisect import bisect_right
from collections.abc import Callable, Sequence
from itertools import accumulate
from typing import NamedTuple

from stockroom.film.course import Course, Stretch


class Link(NamedTuple):
    """A part of a course: its first and last reading, and what it amounts to."""

    since_s: int
    until_s: int
    amount: float
    measured_s: int


class Chain:
    """A course in links; the last reading of each is the first of the next one.

    What came together up to an instant is kept, for many stretches end at the same one.
    """

    def __init__(self, links: Sequence[Link], fetch: Callable[[int], Course]) -> None:
        self._links = links
        self._fetch = fetch
        self._since_s = [link.since_s for link in links]
        self._amounts = list(accumulate((link.amount for link in links), initial=0.0))
        self._measured_s = list(accumulate((link.measured_s for link in links), initial=0))
        self._known: dict[int, Stretch] = {}

    def between(self, start_s: int, end_s: int) -> Stretch:
        """What the measured part of a stretch amounts to, and how long that part is."""
        if end_s < start_s:
            raise ValueError("a stretch ends before it starts")
        if not self._links:
            return Stretch(0.0, 0)
        first, last = self._place(start_s), self._place(end_s)
        if first == last:
            return self._fetch(first).between(start_s, end_s)
        if first + 1 == last:  # a few readings about the joint would be lost in the sums before
            joint_s = self._since_s[last]
            head = self._fetch(first).between(start_s, joint_s)
            tail = self._fetch(last).between(joint_s, end_s)
            return Stretch(head.amount + tail.amount, head.measured_s + tail.measured_s)
        before, all_of_it = self._upto(first, start_s), self._upto(last, end_s)
        return Stretch(all_of_it.amount - before.amount, all_of_it.measured_s - before.measured_s)

    def _upto(self, place: int, instant_s: int) -> Stretch:
        """What came together up to an instant that lies in a link."""
        known = self._known.get(instant_s)
        if known is None:
            part = self._fetch(place).upto(instant_s)
            known = Stretch(
                self._amounts[place] + part.amount, self._measured_s[place] + part.measured_s
            )
            self._known[instant_s] = known
        return known

    def _place(self, instant_s: int) -> int:
        """The link an instant lies in; the first or the last one where it lies in none."""
        return max(bisect_right(self._since_s, instant_s) - 1, 0)
