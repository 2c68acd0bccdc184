"""A copy is the book as of one moment, in one file, verified and put in place whole."""

from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest
from sqlalchemy import Connection, text

from stockroom.books import course
from stockroom.books.opening import Book, create_book, open_book
from stockroom.errors import Code, Exit, Refusal
from stockroom.units import M
from stockroom.work.safekeeping import backup
from stockroom.work.summing import sum_again
from tests.builders import Station, dump, is_sound
from tests.weather import Weather


def _at_work(station: Station) -> str:
    """Some history: a code."""
    job = station.job()
    roll = station.roll(place=station.place(), lot="L-204")
    station.cut(roll, 2 * M, job=job, offcuts=((M, M),))
    station.cut(roll, M)
    station.undo(roll)
    station.close(job)
    return roll


def test_a_copy_holds_all_that_the_book_holds(station: Station, tmp_path: Path) -> None:
    """From either engine into one file, which works on as a book of its own."""
    roll = _at_work(station)

    copy = backup(station.book, tmp_path / "copy.db")

    assert (copy.path, copy.pieces, copy.moves) == (tmp_path / "copy.db", 2, 5)
    assert [path.name for path in tmp_path.iterdir() if "copy" in path.name] == ["copy.db"]
    with closing(open_book(str(copy.path))) as book:
        assert dump(book) == dump(station.book)
        assert is_sound(book)
        assert Station(book).cut(roll, M).left_nm == 27 * M
        with book.reading() as connection:
            assert connection.scalar(text("PRAGMA journal_mode")) == "wal"


def test_the_climate_goes_with_the_book_and_is_summed_again(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Sensors, what they read, what is assumed; what is summed can be left out of a copy."""
    monkeypatch.setattr(course, "PART", 5)
    weather = Weather(book)
    weather.sensor()
    weather.assume("north", 24)
    weather.wait(days=1)
    weather.read(*((600 * place, 20.0 + place, 40.0) for place in range(24)))

    backup(book, tmp_path / "copy.db")

    with closing(open_book(str(tmp_path / "copy.db"))) as copy:
        sum_again(copy, now=weather.now)
        assert dump(copy) == dump(book)
        assert dump(copy)["course_part"] != []


def test_the_heads_of_a_copy_change_with_any_act(station: Station, tmp_path: Path) -> None:
    """Two copies with one hash hold the same history; an act more is another hash."""
    roll = _at_work(station)
    first = backup(station.book, tmp_path / "1.db")
    second = backup(station.book, tmp_path / "2.db")
    station.hold(roll)
    third = backup(station.book, tmp_path / "3.db")

    assert first.heads == second.heads != third.heads


class _Busy(Book):
    """A book at which somebody receives a roll whenever a copy has read one thing."""

    somebody: Station

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Read, and let the other write between the first look and the rest."""
        with super().reading() as connection:
            connection.execute(text("SELECT count(*) FROM piece"))
            self.somebody.roll()
            yield connection


def test_a_copy_belongs_to_one_moment(station: Station, tmp_path: Path) -> None:
    """What is written while it is being made is not in it by halves."""
    _at_work(station)
    before = dump(station.book)
    busy = _Busy(station.book.url)
    busy.somebody = station

    with closing(busy):
        backup(busy, tmp_path / "copy.db")

    with closing(open_book(str(tmp_path / "copy.db"))) as book:
        assert is_sound(book)
        assert dump(book)["piece"][:2] == before["piece"]


def test_a_file_that_is_there_is_never_written_over(station: Station, tmp_path: Path) -> None:
    """Nor one in a folder that is not there, nor the book itself."""
    there = tmp_path / "there.db"
    there.write_text("letters")
    for target in (there, tmp_path, tmp_path / "no" / "copy.db"):
        with pytest.raises(Refusal) as caught:
            backup(station.book, target)
        assert caught.value.code is Code.FILE_UNWRITABLE
        assert caught.value.exit is Exit.NO_BOOK

    assert there.read_text() == "letters"


def test_a_damaged_book_is_not_passed_on_as_a_copy(tmp_path: Path) -> None:
    """The copy is looked at before it is put in place."""
    with closing(create_book(str(tmp_path / "book.db"))) as book:
        roll = _at_work(Station(book))
        with book.transaction() as connection:
            connection.execute(text(f"UPDATE piece SET balance = 1 WHERE code = '{roll}'"))

        with pytest.raises(Refusal, match=roll) as caught:
            backup(book, tmp_path / "copy.db")

    assert caught.value.code is Code.VERIFY_FOUND
    assert not list(tmp_path.glob("*copy*"))
