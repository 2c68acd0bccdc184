"""Panels laid so that a straight knife can part them: each cut goes from edge to edge.

The free film is kept as rectangles that never join, so that every layout can be cut. A panel goes
into the rectangle with the best score, into its corner; one cut then parts what is left of it.
"""

from collections.abc import Callable, Sequence
from typing import NamedTuple, TypeAlias

from stockroom.plan.panels import Ways

Free: TypeAlias = tuple[int, int, int, int]
"""A free rectangle: where it begins across and along, how far it goes across and along."""
Spot: TypeAlias = tuple[int, int, int, int, int]
"""Where a panel lies: its number, where it begins across and along, its size across and along."""
Score: TypeAlias = Callable[[Free, int, int], int]
"""How well a panel of a size suits a free rectangle: the least is the best."""
Split: TypeAlias = Callable[[Free, int, int], bool]
"""Whether the cut beside a panel goes across the whole free rectangle, or along it."""


def _area(free: Free, across: int, along: int) -> int:
    return free[2] * free[3] - across * along


def _short_side(free: Free, across: int, along: int) -> int:
    return min(free[2] - across, free[3] - along)


def _long_side(free: Free, across: int, along: int) -> int:
    return max(free[2] - across, free[3] - along)


def _lowest(free: Free, _across: int, along: int) -> int:
    return free[1] + along


def _beside(free: Free, across: int, _along: int) -> int:
    return free[2] - across


def _above(free: Free, _across: int, along: int) -> int:
    return free[3] - along


def _less_left(free: Free, across: int, along: int) -> bool:
    return free[2] - across <= free[3] - along


def _more_left(free: Free, across: int, along: int) -> bool:
    return free[2] - across > free[3] - along


def _less_area(free: Free, across: int, along: int) -> bool:
    return (free[2] - across) * along <= (free[3] - along) * across


def _more_area(free: Free, across: int, along: int) -> bool:
    return (free[2] - across) * along > (free[3] - along) * across


def _narrow(free: Free, _across: int, _along: int) -> bool:
    return free[2] <= free[3]


def _wide(free: Free, _across: int, _along: int) -> bool:
    return free[2] > free[3]


class Style(NamedTuple):
    """How the place of a panel is chosen, and how what is left of that is parted."""

    score: Score
    split: Split


SPLITS: tuple[Split, ...] = (_less_left, _more_left, _less_area, _more_area, _narrow, _wide)
STYLES = tuple(
    Style(score, split)
    for score in (_area, _short_side, _long_side, _lowest, _beside, _above)
    for split in SPLITS
)


class Filled(NamedTuple):
    """The panels that found a place, and the area of those that did not."""

    spots: list[Spot]
    missing: int


def fill(ways: Sequence[Ways], order: Sequence[int], style: Style, room: tuple[int, int]) -> Filled:
    """Lay panels one by one into a room, across by along; what fits nowhere is missing."""
    score, split = style
    free: list[Free] = [(0, 0, *room)]
    spots: list[Spot] = []
    missing = 0
    for index in order:
        found = _best(free, ways[index], score)
        if found is None:
            across, along = ways[index][0]
            missing += across * along
            continue
        place, across, along = found
        chosen = free[place]
        free[place] = free[-1]
        free.pop()
        spots.append((index, chosen[0], chosen[1], across, along))
        free += parted(chosen, across, along, split)
    return Filled(spots, missing)


def _best(free: list[Free], ways: Ways, score: Score) -> tuple[int, int, int] | None:
    """The free rectangle with the best score, and how the panel lies there."""
    best: tuple[int, int, int] | None = None
    least = 0
    for place, one in enumerate(free):
        for across, along in ways:
            if across <= one[2] and along <= one[3]:
                worth = score(one, across, along)
                if best is None or worth < least:
                    best, least = (place, across, along), worth
    return best


def parted(free: Free, across: int, along: int, split: Split) -> list[Free]:
    """What is left of a free rectangle beside and above a panel in its corner."""
    x, y, wide, long = free
    goes_across = split(free, across, along)
    left: list[Free] = []
    if wide > across:
        left.append((x + across, y, wide - across, along if goes_across else long))
    if long > along:
        left.append((x, y + along, wide if goes_across else across, long - along))
    return left
