"""Settling what storage did to pieces, once a week: so that reports look only at what came after."""

from datetime import UTC, datetime
from math import isclose

from stockroom.books.catalog import shop
from stockroom.books.climates import Climates
from stockroom.books.opening import Book
from stockroom.books.sensors import lock_sensors
from stockroom.books.settled import Settled, Sums, begin_settling, packed, settle
from stockroom.books.stays import Stays
from stockroom.books.values import Finding
from stockroom.errors import Exit, Refusal
from stockroom.work.exposed import Exposures
from stockroom.work.look import on_hand
from stockroom.work.storage import Stored

_AS_NEAR = 1e-9
YOUNG_S = 4 * 86_400
"""What is younger is not settled: readings are late by some days, and a cold roll warms up for three."""
_SILENT_S = 46 * 86_400
"""Nothing more is awaited of a sensor that was silent for so long: loggers are read out by hand."""
_EVER = datetime(9000, 1, 1, tzinfo=UTC)


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
        basis, now_s = climates.basis, climates.until_s
        if not climates.is_measured or climates.is_settled(now_s - YOUNG_S):
            return
        last_s = _awaited_from(climates)
        if climates.is_settled(last_s):
            return
    with book.transaction() as connection:
        lock_sensors(connection)  # whoever writes something late from here on makes the number void
        number = begin_settling(
            connection, made_s=now_s, until_s=last_s - gap_s, last_s=last_s, basis=basis
        )
    with on_hand(book, now=now, today=None) as (seen, climates, found):
        seen_of_moves = climates.begin_noting(last_s - gap_s)
        basis, storage, pieces = climates.basis, Stored(climates, seen).storage_of, 0
        for one in found:
            storage(one)
            pieces += 1
    noted = (climates.settled.noted or {}).items()
    content = packed({code: those for code, those in noted if code not in seen_of_moves.ahead})
    with book.transaction() as connection:
        lock_sensors(connection)
        settle(connection, number, basis=basis, pieces=pieces, known=seen_of_moves, content=content)


def _awaited_from(climates: Climates) -> int:
    """The second from which on readings may still come: loggers are read out one after the other."""
    now_s = climates.until_s
    heard_s = [at_s for at_s in climates.heard_s() if at_s > now_s - _SILENT_S]
    return min([now_s - YOUNG_S, *heard_s])


def wrong_settled(book: Book) -> list[Finding]:
    """How many pieces are settled otherwise than what is known of them now tells, and one of them."""
    with book.reading() as connection:
        then = shop(connection, _EVER)
        settled = Climates(connection, then, _EVER).settled
        anew = Climates(connection, then, _EVER)
        anew.settled = Settled()
        exposures = Exposures(anew, then)
        wrong = {
            code
            for code, one in settled
            if not _is_near(exposures.sums(code, *one[:3]), one.sums)
            or not _stays_in(one.zone, anew.stays(code), settled.until_s)
        }
    text = (
        f"what is settled of the storage of {len(wrong)} pieces is not what sensors read where they "
        "stood: run `climate sum-again`"
    )
    return [Finding(min(wrong), text)] if wrong else []


def _stays_in(zone: str | None, stays: Stays, since_s: int) -> bool:
    """Whether a piece is in a zone since then."""
    if not stays:
        return zone is None
    return stays[-1].zone == zone and stays[-1].since_s <= since_s


def _is_near(found: Sums, kept: Sums) -> bool:
    return all(
        isclose(one, other, rel_tol=_AS_NEAR, abs_tol=_AS_NEAR)
        for one, other in zip(found, kept, strict=True)
    )
