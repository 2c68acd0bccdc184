"""The stretches of a piece's storage: in which zone it was from one second to another."""

from collections.abc import Iterator
from typing import NamedTuple

from stockroom.books.stays import Stays


class Stretch(NamedTuple):
    """From one second to another in one zone; None is not known."""

    zone: str | None
    since_s: int
    until_s: int


def stretches(stays: Stays, since_s: int, until_s: int) -> Iterator[Stretch]:
    """The zones a piece was in, from one second to another."""
    at_s, zone = since_s, None
    for stay in stays:
        if stay.since_s >= until_s:
            break
        if stay.since_s > at_s:
            yield Stretch(zone, at_s, stay.since_s)
            at_s = stay.since_s
        zone = stay.zone
    yield Stretch(zone, at_s, until_s)
