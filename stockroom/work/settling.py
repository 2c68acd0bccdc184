"""Settling what storage did to pieces, once a week: so that reports look only at what came after."""

from datetime import UTC, datetime
from math import isclose

from stockroom.books.catalog import shop
from stockroom.books.climates import Climates
from stockroom.books.opening import Book
from stockroom.books.sensors import lock_sensors, second_of
from stockroom.books.settled import Settled, Sums, begin_settling, settle, settled_lately, settled_s
from stockroom.books.values import Finding
from stockroom.errors import Exit, Refusal
from stockroom.work.exposed import Exposures
from stockroom.work.look import on_hand
from stockroom.work.storage import Stored

_AS_NEAR = 1e-9
YOUNG_S = 4 * 86_400
"""What is younger is not settled: readings are late by some days, and a cold roll warms up for three."""


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
        basis = Climates(connection, known, now).basis
        if settled_lately(connection, basis, second_of(now)):
            return
    gap_s, now_s = known.house.air.gap_s, second_of(now)
    until_s = now_s - gap_s - YOUNG_S
    with book.transaction() as connection:
        lock_sensors(connection)  # whoever writes something late from here on drops the number
        number = begin_settling(
            connection, made_s=now_s, until_s=until_s, last_s=until_s + gap_s, basis=basis
        )
    with on_hand(book, now=now, today=None) as (seen, climates, found):
        if climates.basis != basis:
            return
        noting, moved = climates.settle(until_s)
        storage = Stored(climates, seen).storage_of
        for one in found:
            storage(one)
    with book.transaction() as connection:
        lock_sensors(connection)
        settle(connection, number, known=moved, noted=noting.noted or {})


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
