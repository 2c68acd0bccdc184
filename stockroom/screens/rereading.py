"""What stands on a screen is read again only when it may have changed."""

from collections.abc import Callable, Hashable
from dataclasses import dataclass
from datetime import datetime, timedelta

from textual.message import Message

from stockroom.screens.station import Station
from stockroom.work.look import stamp

FRESH_FOR = timedelta(minutes=5)
"""So long what was read is shown though time goes by: waits end, and the air gets warmer."""


@dataclass(frozen=True, slots=True)
class Seen:
    """How far the book had come when it was read, and when that was."""

    stamp: Hashable
    at: datetime


class Unchanged(Message):
    """Nothing was written since; what is shown still holds."""


def unless_same(station: Station, last: Seen | None, read: Callable[[Seen], Message]) -> Message:
    """Read, unless what was seen last is fresh and nothing was written since."""
    now = station.now()
    # Before what is read: what is written between the two is then seen the next time.
    seen = Seen(stamp(station.book, now=now), now)
    if last is not None and last.stamp == seen.stamp and now - last.at < FRESH_FOR:
        return Unchanged()
    return read(seen)
