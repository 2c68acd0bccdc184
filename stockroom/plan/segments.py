"""Panels laid for a table: film is first cut across into segments no longer than the table, then parted.

A table shorter than a panel is as long as that panel: it hangs over.
"""

from collections.abc import Sequence

from stockroom.plan.guillotine import Filled, Spot, Style
from stockroom.plan.guillotine import fill as fill_segment
from stockroom.plan.panels import Ways

_MOST_LENGTHS = 8


def fill(
    ways: Sequence[Ways],
    order: Sequence[int],
    style: Style,
    room: tuple[int, int],
    table: int,
) -> Filled:
    """Lay panels segment by segment into a room, across by along; what fits nowhere is missing."""
    width, cap = room
    left = list(order)
    spots: list[Spot] = []
    taken = 0
    while left:
        segment = _fullest(ways, left, style, (width, min(table, cap - taken)))
        if segment is None:
            break
        spots += ((index, x, y + taken, wide, long) for index, x, y, wide, long in segment.spots)
        taken += _length(segment.spots)
        laid = {spot[0] for spot in segment.spots}
        left = [index for index in left if index not in laid]
    return Filled(spots, sum(ways[index][0][0] * ways[index][0][1] for index in left))


def _fullest(
    ways: Sequence[Ways], left: list[int], style: Style, room: tuple[int, int]
) -> Filled | None:
    """The segment that wastes the smallest part of its film; None where no panel fits."""
    width, longest = room
    best: Filled | None = None
    most = 0.0
    for length in _lengths(ways, left, longest):
        filled = fill_segment(ways, left, style, (width, length))
        if not filled.spots:
            continue
        used = sum(wide * long for _, _, _, wide, long in filled.spots)
        share = used / (width * _length(filled.spots))
        if best is None or share > most:
            best, most = filled, share
    return best


def _lengths(ways: Sequence[Ways], left: list[int], longest: int) -> list[int]:
    """How long the segment may be: as the next panel, as a longer one, as the next and another."""
    known = {along for index in left for _, along in ways[index] if along <= longest}
    opens = next((index for index in left if any(long <= longest for _, long in ways[index])), None)
    if opens is None:
        return []
    first = {along for _, along in ways[opens] if along <= longest}
    longer = {along for along in known if along > min(first)}
    sums = {one + other for one in first for other in known if one + other <= longest}
    return sorted(first | longer | sums)[-_MOST_LENGTHS:]


def _length(spots: Sequence[Spot]) -> int:
    return max(y + long for _, _, y, _, long in spots)
