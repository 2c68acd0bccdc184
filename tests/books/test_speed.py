"""What keeps the books fast, told by what they send and not by a clock."""

from contextlib import closing
from datetime import timedelta
from pathlib import Path

import pytest
from sqlalchemy import text

from scripts.speed.replay import bare, recorded, replayed
from stockroom.books.opening import Book, open_book
from stockroom.units import M
from stockroom.work.look import piece, rack
from stockroom.work.safekeeping import verify
from tests.builders import ON_ONE_ENGINE, Station


def test_a_rack_of_many_sends_no_more_than_a_rack_of_one(book: Book) -> None:
    """Nothing is asked for piece by piece."""
    station = Station(book)
    station.roll()
    with recorded() as few:
        rack(book, now=station.now)
    station.rolls(pieces=20)

    with recorded() as many:
        rack(book, now=station.now)

    assert len(many) == len(few)


def test_a_piece_and_a_cut_take_few_statements(book: Book) -> None:
    """A station on the network waits for each of them."""
    station = Station(book)
    roll, job = station.roll(), station.job()

    with recorded() as looking:
        piece(book, roll, now=station.now)
    with recorded() as cutting:
        station.cut(roll, 1 * M, job=job)

    assert len(looking) <= 12
    assert len(cutting) <= 15


def test_what_a_cut_answers_is_what_the_journal_says(book: Book) -> None:
    """The answer is made from what was written, and is the one a repeated request reads."""
    station = Station(book)
    roll = station.roll()
    station.wait(hours=1)
    request = {"request": "once", "offcuts": ((1_200_000_000, 1 * M),), "note": "by the window"}

    first = station.cut(roll, 2 * M, **request)
    station.now += timedelta(minutes=1)
    again = station.cut(roll, 2 * M, **request)

    assert first == again
    assert first.act.at.tzinfo == again.act.at.tzinfo


@ON_ONE_ENGINE
def test_statements_can_be_sent_again_without_the_program(book: Book, tmp_path: Path) -> None:
    """A comparison with bare sqlite3 sends what was really sent."""
    station = Station(book)
    roll = station.roll()
    copy = tmp_path / "copy.db"
    book.copy_to(copy)

    with recorded() as statements:
        station.cut(roll, 1 * M)
    with closing(bare(copy)) as connection:
        replayed(connection, statements)

    with closing(open_book(str(copy))) as twin:
        assert verify(twin) == []
        assert piece(twin, roll, now=station.now).acts == piece(book, roll, now=station.now).acts


@pytest.mark.parametrize(
    "book_url", [pytest.param("postgresql", marks=pytest.mark.postgresql)], indirect=True
)
def test_a_line_to_a_server_is_kept_and_made_again_where_it_was_cut(
    book: Book, book_url: str
) -> None:
    """Making one takes longer than most answers; and servers are started anew now and then."""
    first, again = _line(book), _line(book)
    with closing(open_book(book_url)) as other, other.transaction() as connection:
        cut = text("SELECT pg_terminate_backend(:line, 10000)")
        assert connection.execute(cut, {"line": first}).scalar_one()

    assert first == again
    assert first != _line(book)


def _line(book: Book) -> int:
    """The number the server has given to the line."""
    with book.reading() as connection:
        return int(connection.execute(text("SELECT pg_backend_pid()")).scalar_one())
