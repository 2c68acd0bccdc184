"""The stretches of a piece's storage: in which zone it was from one second to another."""

from collections.abc import Iterator

from stockroom.books.stays import Stays

Stretch = tuple[str | None, int, int]
"""The zone, None where it is not known, and from which second to which; plain, for lists make many."""


def stretches(stays: Stays, since_s: int, until_s: int) -> Iterator[Stretch]:
    """The zones a piece was in, from one second to another."""
    at_s, zone = since_s, None
    for came_s, next_zone in stays:
        if came_s >= until_s:
            break
        if came_s > at_s:
            yield zone, at_s, came_s
            at_s = came_s
        zone = next_zone
    yield zone, at_s, until_s
