"""Panels that can only lie one behind the other: the set of them that fills a stretch best.

One film after the other filled as full as it gets is the minimum bin slack rule of Gupta and Ho
(Production Planning & Control 10, 1999, 598-603; from memory), which leaves far less over than the
longest panel first. Lengths are counted in steps of their greatest common divisor.
"""

from collections.abc import Sequence
from math import gcd

from stockroom.plan.guillotine import Spot
from stockroom.plan.panels import Rectangle

_MOST_STEPS = 200_000


def fullest(lengths: Sequence[int], cap: int) -> tuple[int, ...]:
    """The places of the lengths that fill a stretch best, together no longer than it."""
    step = max(gcd(*lengths), cap // _MOST_STEPS, 1)
    steps = [-(-length // step) for length in lengths]
    room = cap // step
    reached = [1]  # after each length, which sums there are: bit n stands for n steps
    mask = (1 << (room + 1)) - 1
    for length in steps:
        reached.append((reached[-1] | reached[-1] << length) & mask)
    left = reached[-1].bit_length() - 1
    chosen: list[int] = []
    for place in range(len(steps), 0, -1):
        if not reached[place - 1] >> left & 1:
            chosen.append(place - 1)
            left -= steps[place - 1]
    return tuple(reversed(chosen))


def fullest_strips(found: Sequence[Rectangle], cap: int) -> tuple[Spot, ...]:
    """Rectangles of which no two lie beside one another, laid into a stretch; each in its shortest way."""
    ways = [min(one.ways, key=lambda way: way[1]) for one in found]
    spots: list[Spot] = []
    begins = 0
    for place in fullest([along for _, along in ways], cap):
        across, along = ways[place]
        spots.append((place, 0, begins, across, along))
        begins += along
    return tuple(spots)
