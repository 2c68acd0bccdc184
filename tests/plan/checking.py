"""What a stranger would ask of a layout; shares no code with the planner."""

from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import combinations
from typing import TypeAlias

Laid: TypeAlias = tuple[str, int, int, int, int]
"""A panel that was laid: its name, where it begins across and along, its size across and along."""


def overlaps(laid: Sequence[Laid]) -> list[tuple[str, str]]:
    """The pairs of panels that share film."""
    return [
        (one[0], other[0])
        for one, other in combinations(laid, 2)
        if one[1] < other[1] + other[3]
        and other[1] < one[1] + one[3]
        and one[2] < other[2] + other[4]
        and other[2] < one[2] + one[4]
    ]


def sticks_out(laid: Iterable[Laid], width: int, length: int) -> list[str]:
    """The panels that leave the film."""
    return [
        name
        for name, x, y, across, along in laid
        if x < 0 or y < 0 or x + across > width or y + along > length
    ]


def sizes(laid: Iterable[Laid], *, turns: bool) -> Counter[tuple[str, int, int]]:
    """How many there are of each panel and size, whichever way it lies."""
    return Counter(
        (name, *(sorted((across, along)) if turns else (across, along)))
        for name, _, _, across, along in laid
    )


def comes_apart(laid: Sequence[Laid]) -> bool:
    """Whether cuts from edge to edge part the panels: tried at every edge, in both directions."""
    if len(laid) <= 1:
        return True
    for reach in (_across, _along):
        for at in {reach(one)[0] for one in laid}:
            before = [one for one in laid if reach(one)[1] <= at]
            after = [one for one in laid if reach(one)[0] >= at]
            if before and after and len(before) + len(after) == len(laid):
                return comes_apart(before) and comes_apart(after)
    return False


def _across(one: Laid) -> tuple[int, int]:
    return one[1], one[1] + one[3]


def _along(one: Laid) -> tuple[int, int]:
    return one[2], one[2] + one[4]
