"""A prepared statement answers as the library's own way of sending it does."""

from datetime import UTC, datetime

import pytest
from sqlalchemy import bindparam, insert, select
from sqlalchemy.exc import DatabaseError

from stockroom.books.opening import Book
from stockroom.books.prepared import Prepared
from stockroom.books.tables import ActRow, CounterRow, PieceRow, table_of
from stockroom.units import M
from tests.builders import Station

_ACT, _PIECE, _COUNTER = table_of(ActRow), table_of(PieceRow), table_of(CounterRow)


def test_rows_are_those_the_library_finds_with_its_own_types(station: Station) -> None:
    """Instants, flags, numbers and what is not there; each column under its name."""
    roll = station.roll()
    station.cut(roll, 1 * M)
    for statement, given in (
        (select(_PIECE).where(_PIECE.c.code == bindparam("code")), {"code": roll}),
        (select(_ACT).where(_ACT.c.at <= bindparam("at")), {"at": station.now}),
    ):
        with station.book.reading() as connection:
            ours = Prepared(statement).all(connection, given)
            theirs = connection.execute(statement, given).all()

        assert ours
        assert ours == [tuple(row) for row in theirs]
        assert [list(map(type, row)) for row in ours] == [list(map(type, row)) for row in theirs]
        assert ours[0]._fields == tuple(theirs[0]._fields)


def test_an_instant_goes_in_as_what_it_is_in_utc(station: Station) -> None:
    """The same instant told by another clock finds the same act."""
    station.roll()
    wanted = Prepared(select(_ACT.c.request).where(_ACT.c.at == bindparam("at")))

    with station.book.reading() as connection:
        at: datetime = Prepared(select(_ACT.c.at)).all(connection)[0].at
        found = wanted.all(connection, {"at": at.astimezone()})

    assert at.tzinfo == UTC
    assert found


def test_nothing_found_is_none_and_no_single_value(book: Book) -> None:
    """Who asks for the only value must know that there is one."""
    wanted = Prepared(select(_ACT.c.id).where(_ACT.c.request == bindparam("request")))
    with book.reading() as connection:
        assert wanted.all(connection, {"request": "never"}) == []
        assert wanted.first(connection, {"request": "never"}) is None
        with pytest.raises(ValueError, match="unpack"):
            wanted.value(connection, {"request": "never"})


@pytest.mark.parametrize(
    ("statement", "given"),
    [
        (select(_ACT.c.id).where(_ACT.c.id.in_(bindparam("ids", expanding=True))), {"ids": [1]}),
        (insert(_ACT), {"request": "once"}),
    ],
    ids=["a list", "a default"],
)
def test_what_it_cannot_send_is_refused(
    book: Book, statement: object, given: dict[str, object]
) -> None:
    """Lists are written anew for every length, and defaults are made by the library."""
    prepared = Prepared(statement)  # type: ignore[arg-type]
    with book.reading() as connection, pytest.raises(ValueError, match="not to be prepared"):
        prepared.all(connection, given)


def test_what_the_driver_says_comes_as_an_error_of_the_library(book: Book) -> None:
    """So that every fault is told in one place, however the statement was sent."""
    again = Prepared(insert(_COUNTER))
    with (
        pytest.raises(Exception, match="same at the same moment") as told,
        book.transaction() as connection,
    ):
        again.all(connection, {"letter": "R", "last": 1})
    assert isinstance(told.value.__cause__, DatabaseError)
