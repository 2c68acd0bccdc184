"""Film filled region by region for a straight knife: the region is chosen first, then what suits it best.

What fills a region from edge to edge leaves no choice of a cut and no strip beside it, so it goes
before all else, wherever it stands in the order; of what suits alike, the first in the order goes.
"""

from collections.abc import Callable, Sequence
from heapq import heappop, heappush
from typing import NamedTuple, TypeAlias

from stockroom.plan.guillotine import Filled, Free, Split, Spot, parted
from stockroom.plan.panels import Ways
from stockroom.plan.sides import Lying, Sides, bits_of

Look: TypeAlias = Callable[[Free], int]
"""Which of the free regions is filled next: that with the least; of those alike, the newest."""


def _newest(_free: Free) -> int:
    return 0


def _smallest(free: Free) -> int:
    return free[2] * free[3]


def _narrowest(free: Free) -> int:
    return min(free[2], free[3])


LOOKS: tuple[Look, ...] = (_newest, _smallest, _narrowest)


def cut_across(_free: Free, _across: int, _along: int) -> bool:
    """From edge to edge of the region."""
    return True


class Manner(NamedTuple):
    """Which region is filled next, and how it is parted beside each of the things that are laid.

    With `in_segments`, what is as wide as the film is always cut across: a segment is as long as
    what was laid first in it.
    """

    look: Look
    splits: Sequence[Split]
    in_segments: bool = False


def fill(
    ways: Sequence[Ways], order: Sequence[int], manner: Manner, room: tuple[int, int]
) -> Filled:
    """Lay things into a room, across by along; what suits no region is missing."""
    look, splits, in_segments = manner
    lying: list[Lying] = [
        (index, across, along) for index in order for across, along in ways[index]
    ]
    by_across = Sides([across for _, across, _ in lying])
    by_along = Sides([along for _, _, along in lying])
    left = (1 << len(lying)) - 1
    missing = sum(ways[index][0][0] * ways[index][0][1] for index in order)
    free: list[tuple[int, int, Free]] = [(0, 0, (0, 0, *room))]
    spots: list[Spot] = []
    while free and left:
        region = heappop(free)[2]
        x, y, wide, long = region
        fit = left & by_across.up_to(wide) & by_along.up_to(long)
        if not fit:
            continue
        fills_across = fit & by_across.equal.get(wide, 0)
        fills_along = fit & by_along.equal.get(long, 0)
        best = fills_across & fills_along or fills_across or fills_along or fit
        place = (best & -best).bit_length() - 1
        index, across, along = lying[place]
        left &= ~bits_of(lying, place)
        missing -= across * along
        spots.append((index, x, y, across, along))
        split = cut_across if in_segments and wide == room[0] else splits[index]
        for rest in parted(region, across, along, split):
            heappush(free, (look(rest), -len(spots), rest))
    return Filled(spots, missing)
