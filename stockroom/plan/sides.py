"""What fits where, for all that is left at once: a bit for each way in which something may lie.

What is first in the order has the lowest bit, so that the first of what suits alike is found at once.
"""

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from typing import TypeAlias

Lying: TypeAlias = tuple[int, int, int]
"""Something in one of the ways in which it may lie: its number, how far it goes across and along."""


class Sides:
    """Which ways of lying have a side of a length, and which have one no longer, as bits."""

    __slots__ = ("_lengths", "_up_to", "equal")

    def __init__(self, sides: Iterable[int]) -> None:
        equal: dict[int, int] = {}
        bit = 1
        for side in sides:
            equal[side] = equal.get(side, 0) | bit
            bit <<= 1
        self.equal = equal
        self._lengths = sorted(equal)
        self._up_to = [0]
        for length in self._lengths:
            self._up_to.append(self._up_to[-1] | equal[length])

    def up_to(self, length: int) -> int:
        """The ways with a side no longer than a length."""
        return self._up_to[bisect_right(self._lengths, length)]


def bits_of(lying: Sequence[Lying], place: int) -> int:
    """The bits of the ways in which one thing may lie: they are side by side."""
    index = lying[place][0]
    bits = 1 << place
    if place and lying[place - 1][0] == index:
        bits |= bits >> 1
    elif place + 1 < len(lying) and lying[place + 1][0] == index:
        bits |= bits << 1
    return bits
