"""The cuts of a layout in the order of the knife: each from edge to edge of the film it parts.

A segment is cut off across first and parted on the table before the next one is cut off.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from stockroom.plan.guillotine import Spot


class Way(StrEnum):
    """How a cut goes."""

    ACROSS = "across"
    ALONG = "along"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One straight cut: where it lies, and between which edges it goes."""

    number: int
    way: Way
    at: int
    begins: int
    ends: int


@dataclass(frozen=True, slots=True)
class _Region:
    """Film between edges: across from and to, along from and to."""

    across: tuple[int, int]
    along: tuple[int, int]

    def edges(self, way: Way) -> tuple[int, int]:
        return self.along if way is Way.ACROSS else self.across

    def part(self, way: Way, begins: int, ends: int) -> "_Region":
        if way is Way.ACROSS:
            return _Region(self.across, (begins, ends))
        return _Region((begins, ends), self.along)


def cuts(spots: Sequence[Spot], width: int, length: int) -> tuple[Cut, ...] | None:
    """The cuts that part panels from film of a width and a length; None where a straight knife cannot."""
    try:
        found = list(_parting(list(spots), _Region((0, width), (0, length))))
    except _NotParted:
        return None
    return tuple(
        Cut(number=number, way=way, at=at, begins=begins, ends=ends)
        for number, (way, at, begins, ends) in enumerate(found, start=1)
    )


class _NotParted(Exception):
    """Panels that interlock."""


def _parting(spots: list[Spot], film: _Region) -> Iterator[tuple[Way, int, int, int]]:
    if not spots:
        return
    for way in Way:
        lines = _lines(spots, film, way)
        if len(lines) > 1 or lines[0] != film.edges(way)[1]:
            break
    else:
        if len(spots) > 1:
            raise _NotParted
        return
    other = Way.ALONG if way is Way.ACROSS else Way.ACROSS
    first, last = film.edges(way)
    waiting = sorted(spots, key=lambda spot: _reach(spot, way), reverse=True)
    for at in (*lines, last) if lines[-1] != last else lines:
        if at != last:
            yield way, at, *film.edges(other)
        inside: list[Spot] = []
        while waiting and _reach(waiting[-1], way)[0] < at:
            inside.append(waiting.pop())
        yield from _parting(inside, film.part(way, first, at))
        first = at


def _lines(spots: list[Spot], film: _Region, way: Way) -> list[int]:
    """Where cuts may go all the way: at the edges of each run of panels that overlap one another."""
    first, _ = film.edges(way)
    lines: list[int] = []
    reach = first
    for begins, ends in sorted(_reach(spot, way) for spot in spots):
        if begins >= reach:
            lines += [reach] if reach > first else []
            lines += [begins] if begins > reach else []
        reach = max(reach, ends)
    return [*lines, reach]


def _reach(spot: Spot, way: Way) -> tuple[int, int]:
    """From where to where a panel goes in the direction in which cuts of this way lie."""
    _, x, y, across, along = spot
    return (y, y + along) if way is Way.ACROSS else (x, x + across)
