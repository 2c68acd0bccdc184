"""A stamp of the book is another one as soon as anything was written."""

from sqlalchemy import text

from stockroom.books.opening import Book
from stockroom.books.stamp import stamp
from tests.builders import FILM, Station


def _stamp(book: Book) -> object:
    with book.reading() as connection:
        return stamp(connection)


def test_every_kind_of_writing_makes_another_stamp(station: Station) -> None:
    """Setting up, changing a material in place, an act, and its undo; looking makes none."""
    book = station.book
    seen = [_stamp(book)]
    material = station.material()
    seen.append(_stamp(book))
    station.place("A1")
    seen.append(_stamp(book))
    station.job("shelter")
    seen.append(_stamp(book))
    roll = station.roll(material=material)
    seen.append(_stamp(book))
    station.put(roll, "A1")
    seen.append(_stamp(book))
    station.undo(roll)
    seen.append(_stamp(book))
    with book.transaction() as connection:
        connection.execute(text("UPDATE material SET note = 'matt side out'"))
    seen.append(_stamp(book))

    assert len(set(seen)) == len(seen)
    assert _stamp(book) == seen[-1]


def test_an_act_that_is_committed_after_a_later_one_makes_another_stamp(book: Book) -> None:
    """On PostgreSQL numbers are given out before they are committed."""
    Station(book).material(FILM)
    with book.transaction() as connection:
        connection.execute(
            text(
                "INSERT INTO act (id, request, request_hash, kind, at, recorded_at, operator, note) "
                "VALUES (900, 'a', 'h', 'x', '2026-11-25', '2026-11-25', 'I', '')"
            )
        )
    before = _stamp(book)
    with book.transaction() as connection:
        connection.execute(
            text(
                "INSERT INTO act (id, request, request_hash, kind, at, recorded_at, operator, note) "
                "VALUES (899, 'b', 'h', 'x', '2026-11-25', '2026-11-25', 'I', '')"
            )
        )

    assert _stamp(book) != before
