"""The largest rectangle of a layout that holds no panel, is worth keeping, and can be cut out."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from stockroom.plan.cuts import cuts
from stockroom.plan.guillotine import Spot

_MOST_TRIED = 8

Rectangle = tuple[int, int, int, int]
"""Where it begins across and along, and its size across and along."""


def offcut(
    spots: Sequence[Spot], width: int, length: int, least: tuple[int, int], *, by_knife: bool
) -> Rectangle | None:
    """The largest that has at least these sides, whichever way it lies; None where none has.

    With a straight knife it must come apart from the panels by cuts from edge to edge.
    """
    short, long = sorted(least)
    worth = (
        one
        for one in _empty(spots, width, length, short)
        if min(one[2:]) >= short and max(one[2:]) >= long
    )
    found = sorted(worth, key=lambda one: (-one[2] * one[3], one))
    for one in found[:_MOST_TRIED]:
        if not by_knife or cuts([*spots, (-1, *one)], width, length) is not None:
            return one
    return None


def _empty(spots: Sequence[Spot], width: int, length: int, short: int) -> Iterator[Rectangle]:
    """Every empty rectangle that reaches from edge to edge of panels or film."""
    lefts = sorted({0, *(x + across for _, x, _, across, _ in spots)})
    rights = sorted({width, *(x for _, x, _, _, _ in spots)})
    for left in lefts:
        for right in rights:
            if right - left < short:
                continue
            between = sorted(
                (y, y + along)
                for _, x, y, across, along in spots
                if x < right and left < x + across
            )
            ends = [(0, 0), *_joined(between), (length, length)]
            for (_, begins), (stops, _) in pairwise(ends):
                if stops - begins >= short:
                    yield left, begins, right - left, stops - begins


def _joined(reaches: Sequence[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """Reaches that touch or overlap as one, in order."""
    first: tuple[int, int] | None = None
    for begins, ends in reaches:
        if first is None:
            first = begins, ends
        elif begins <= first[1]:
            first = first[0], max(first[1], ends)
        else:
            yield first
            first = begins, ends
    if first is not None:
        yield first
