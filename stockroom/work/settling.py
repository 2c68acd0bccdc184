"""Settling what storage did to pieces, once a week: so that reports look only at what came after."""

from datetime import UTC, datetime
from math import isclose

from stockroom.books.catalog import shop
from stockroom.books.climates import Climates
from stockroom.books.opening import Book
from stockroom.books.sensors import lock_sensors
from stockroom.books.settled import Settled, Sums, begin_settling, settle, settled_lately, settled_s
from stockroom.books.values import Finding
from stockroom.errors import Exit, Refusal
from stockroom.work.exposed import Exposures
from stockroom.work.look import on_hand
from stockroom.work.storage import Stored

_AS_NEAR = 1e-9
YOUNG_S = 4 * 86_400
"""What is younger is not settled: readings are late by some days, and a cold roll warms up for three."""
_SILENT_S = 30 * 86_400
"""Nothing more is awaited of a sensor that was silent for so long."""


def keep_settled(book: Book, *, now: datetime) -> None:
    """Settle what storage did to every piece, if that was not done lately and the book may be written.

    Nothing is refused: what is not settled is worked out by whoever needs it, each time anew.
    """
    if book.read_only:
        return
    try:
        _settle(book, now)
    except Refusal as refusal:
        if refusal.exit is not Exit.NO_BOOK:
            raise


def _settle(book: Book, now: datetime) -> None:
    with book.reading() as connection:
        known = shop(connection, now)
        gap_s, climates = known.house.air.gap_s, Climates(connection, known, now)
        if not climates.is_measured:
            return
        basis, now_s = climates.basis, climates.until_s
        last_s = _awaited_from(climates, now_s)
        if settled_lately(connection, basis, now_s=now_s, last_s=last_s):
            return
    with book.transaction() as connection:
        lock_sensors(connection)  # whoever writes something late from here on drops the number
        number = begin_settling(
            connection, made_s=now_s, until_s=last_s - gap_s, last_s=last_s, basis=basis
        )
    with on_hand(book, now=now, today=None) as (seen, climates, found):
        if climates.basis != basis:
            return
        noting, moved = climates.settle(last_s - gap_s)
        storage = Stored(climates, seen).storage_of
        for one in found:
            storage(one)
    with book.transaction() as connection:
        lock_sensors(connection)
        settle(connection, number, known=moved, noted=noting.noted or {})


def _awaited_from(climates: Climates, now_s: int) -> int:
    """The second from which on readings may still come: loggers are read out one after the other."""
    heard_s = [at_s for at_s in climates.heard_s() if at_s > now_s - _SILENT_S]
    return min([now_s - YOUNG_S, *heard_s])


def wrong_settled(book: Book) -> list[Finding]:
    """How many pieces are settled otherwise than their climates tell now, and the first of them."""
    with book.reading() as connection:
        made_s = settled_s(connection)
        if made_s is None:
            return []
        made = datetime.fromtimestamp(made_s, UTC)
        then = shop(connection, made)
        anew = Climates(connection, then, made)
        anew.settled = Settled()
        exposures = Exposures(anew, then)
        wrong = {
            code: one
            for code, one in Climates(connection, then, made).settled
            if not _is_near(exposures.sums(code, *one[:3]), one.sums)
        }
    text = (
        f"what is settled of the storage of {len(wrong)} pieces is not what their climates tell: "
        "run `climate sum-again`"
    )
    return [Finding(next(iter(wrong)), text)] if wrong else []


def _is_near(found: Sums, kept: Sums) -> bool:
    return all(
        isclose(one, other, rel_tol=_AS_NEAR, abs_tol=_AS_NEAR)
        for one, other in zip(found, kept, strict=True)
    )
