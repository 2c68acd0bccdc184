"""Before we close: what still lies out, waits, or was begun and not written."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta

from stockroom.books.drafts import Draft, drafts
from stockroom.books.opening import Book
from stockroom.work.closed import Closed, calendar
from stockroom.work.judging import Judged, View
from stockroom.work.look import rack


@dataclass(frozen=True, slots=True, kw_only=True)
class Closing:
    """What is to be seen to before the lights go out; a piece may stand in several lists."""

    view: View
    out: tuple[Judged, ...]
    """Away with a van or at a site."""
    nowhere: tuple[Judged, ...]
    """Here, but nobody said in which place."""
    wound: tuple[Judged, ...]
    """Printed film that is still wound."""
    waiting: tuple[Judged, ...]
    """Prints that rest."""
    recounts: tuple[Judged, ...]
    """Counts that wait for a second counter."""
    drafts: tuple[Draft, ...]
    closed: Closed | None
    """The closed days that begin tomorrow."""


def closing(book: Book, *, now: datetime) -> Closing:
    """What the last person to leave looks at."""
    found = rack(book, now=now)
    with book.reading() as connection:
        typed = drafts(connection)
    tomorrow = found.view.today + timedelta(days=1)
    closed = (one for one in calendar(book, now=now).closed if one.days.first == tomorrow)

    def those(wanted: Callable[[Judged], bool]) -> tuple[Judged, ...]:
        return tuple(one for one in found.pieces if wanted(one))

    return Closing(
        view=found.view,
        out=those(lambda one: one.standing.state.out_to is not None),
        nowhere=those(_is_nowhere),
        wound=those(_is_wound_print),
        waiting=those(lambda one: one.judgement.wait_until is not None),
        recounts=those(lambda one: one.standing.state.recount is not None),
        drafts=typed,
        closed=next(closed, None),
    )


def _is_nowhere(one: Judged) -> bool:
    return one.standing.place is None and one.standing.state.out_to is None


def _is_wound_print(one: Judged) -> bool:
    return one.standing.state.printed is not None and one.standing.state.is_wound
