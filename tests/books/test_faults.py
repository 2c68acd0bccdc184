"""What a database says when it cannot go on becomes one sentence, and nothing is half done."""

import resource
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError, OperationalError

from stockroom.books.faults import fault_of
from stockroom.books.opening import create_book, open_book
from stockroom.errors import Code, Refusal
from stockroom.units import M
from stockroom.work.look import rack
from stockroom.work.safekeeping import backup
from tests.books.at_work import as_nobody
from tests.builders import Station, dump, is_sound, refused


@pytest.fixture
def reachable() -> Iterator[Path]:
    """A folder anybody may reach, unlike those of the tests."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        folder.chmod(0o711)
        yield folder
        for path in folder.iterdir():
            path.chmod(0o700)


def _locked_up(reachable: Path, *, file: int, around: int) -> Path:
    """A book with one roll in it, closed, under the permissions given."""
    shelf = reachable / "shelf"
    shelf.mkdir()
    path = shelf / "book.db"
    with closing(create_book(str(path))) as book:
        Station(book).roll()
    path.chmod(file)
    shelf.chmod(around)
    return path


def _look_and_try_to_cut(path: Path) -> None:
    with closing(open_book(str(path))) as book:
        station = Station(book)
        roll = rack(book, now=station.now).pieces[0].code
        assert is_sound(book)
        with refused(book, Code.BOOK_READ_ONLY, "change its permissions"):
            station.cut(roll, M)


@pytest.mark.parametrize("around", [0o555, 0o777])
def test_a_book_that_may_only_be_read_is_read_and_never_written(
    reachable: Path, around: int
) -> None:
    """A colleague without rights sees the rack, and is told why a cut is refused."""
    path = _locked_up(reachable, file=0o444, around=around)
    before = path.read_bytes()

    as_nobody(_look_and_try_to_cut, path)

    assert path.read_bytes() == before


def _try_to_receive(path: Path) -> None:
    with pytest.raises(Refusal) as caught, closing(open_book(str(path))) as book:
        Station(book).roll()
    assert caught.value.code in {Code.BOOK_READ_ONLY, Code.BOOK_UNREACHABLE}


def test_a_folder_that_may_only_be_read_is_said(reachable: Path) -> None:
    """A file that may be written in a folder that may not cannot keep a journal beside it."""
    path = _locked_up(reachable, file=0o666, around=0o555)
    before = path.read_bytes()

    as_nobody(_try_to_receive, path)

    assert path.read_bytes() == before


def _copy(path: Path, target: Path) -> None:
    with closing(open_book(str(path))) as book:
        assert backup(book, target).pieces == 1


def test_a_copy_of_a_book_that_may_only_be_read_can_be_made(reachable: Path) -> None:
    """Who may read may take a copy home."""
    path = _locked_up(reachable, file=0o444, around=0o555)
    home = reachable / "home of another"
    home.mkdir()
    home.chmod(0o777)

    as_nobody(_copy, path, home / "copy.db")

    assert (home / "copy.db").exists()


@contextmanager
def _no_file_longer_than(size: int) -> Iterator[None]:
    """A disk that takes no more: Python ignores the signal, so writing fails like on a full one."""
    usual = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, usual[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, usual)


@pytest.mark.parametrize("room", [0, 2_000, 20_000, 60_000])
def test_a_disk_that_is_full_takes_nothing_and_breaks_nothing(tmp_path: Path, room: int) -> None:
    """Wherever in an act the room runs out, the act is not there and the book is sound."""
    path = tmp_path / "book.db"
    with closing(create_book(str(path))) as book:
        station = Station(book)
        roll = station.roll()
        before = dump(book)
        journal = (tmp_path / "book.db-wal").stat().st_size

        refusal = None
        with _no_file_longer_than(journal + room):
            while refusal is None:
                try:
                    station.cut(roll, M // 100)
                    before = dump(book)
                except Refusal as said:
                    refusal = said

        assert refusal.code is Code.BOOK_FULL
        assert dump(book) == before
        assert is_sound(book)
        assert station.cut(roll, M).act.kind == "cut"
    with closing(open_book(str(path))) as book:
        assert is_sound(book)


def test_a_book_on_a_full_disk_is_read_and_not_written(tmp_path: Path) -> None:
    """There is no room for SQLite's index beside it, and nobody else has it open."""
    path = tmp_path / "book.db"
    with closing(create_book(str(path))) as book:
        roll = Station(book).roll()

    with _no_file_longer_than(10_000):
        with closing(open_book(str(path))) as book:
            assert [one.code for one in rack(book, now=Station(book).now).pieces] == [roll]
            assert is_sound(book)
            with refused(book, Code.BOOK_READ_ONLY, "make room on its disk"):
                Station(book).cut(roll, M)
        with pytest.raises(Refusal) as caught:
            create_book(str(path))
        assert caught.value.code is Code.BOOK_FULL

    with closing(open_book(str(path))) as book:
        assert Station(book).cut(roll, M).left_nm == 29 * M


def test_a_book_somebody_has_open_is_not_read_past_its_log(tmp_path: Path) -> None:
    """What another station wrote a moment ago lies in the log, which a full disk keeps shut."""
    path = tmp_path / "book.db"
    with closing(create_book(str(path))) as other:
        roll = Station(other).roll()
        with _no_file_longer_than(10_000), closing(open_book(str(path))) as book:
            assert [one.code for one in rack(book, now=Station(book).now).pieces] == [roll]
            assert not book.read_only


def test_a_disk_too_full_for_a_new_book_leaves_none(tmp_path: Path) -> None:
    """And with room again the book is made."""
    where = str(tmp_path / "book.db")
    with _no_file_longer_than(50_000), pytest.raises(Refusal) as caught:
        create_book(where)
    assert caught.value.code is Code.BOOK_FULL

    with closing(create_book(where)) as book:
        assert is_sound(book)


def test_a_disk_too_full_for_a_copy_leaves_no_half_of_one(tmp_path: Path) -> None:
    """A copy is whole or not there."""
    with closing(create_book(str(tmp_path / "book.db"))) as book:
        Station(book).roll()
        target = tmp_path / "copies" / "copy.db"
        target.parent.mkdir()

        with _no_file_longer_than(50_000), pytest.raises(Refusal) as caught:
            backup(book, target)

        assert caught.value.code is Code.FILE_UNWRITABLE
        assert list(target.parent.iterdir()) == []


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ("database is locked", Code.BOOK_LOCKED),
        ("deadlock detected", Code.BOOK_LOCKED),
        ("canceling statement due to lock timeout", Code.BOOK_LOCKED),
        ("attempt to write a readonly database", Code.BOOK_READ_ONLY),
        ("cannot execute INSERT in a read-only transaction", Code.BOOK_READ_ONLY),
        ("database or disk is full", Code.BOOK_FULL),
        ("disk I/O error", Code.BOOK_FULL),
        ('could not extend file "base/5/16": No space left on device', Code.BOOK_FULL),
        ("file is not a database", Code.BOOK_DAMAGED),
        ("database disk image is malformed", Code.BOOK_DAMAGED),
        ("no such table: piece", Code.BOOK_DAMAGED),
        ("unable to open database file", Code.BOOK_UNREACHABLE),
        ('database "stock" does not exist', Code.BOOK_UNREACHABLE),
        ("connection refused\nIs the server running?", Code.BOOK_UNREACHABLE),
    ],
)
def test_each_complaint_has_a_sentence_of_one_line(said: str, code: Code) -> None:
    """Words of SQLite 3.40 and PostgreSQL 15, as they were seen."""
    refusal = fault_of(OperationalError("", None, sqlite3.OperationalError(said)), "book.db")

    assert refusal.code is code
    assert "book.db" in refusal.sentence
    assert len(refusal.sentence.splitlines()) == 1


def test_a_statement_that_is_wrong_stays_a_bug(station: Station) -> None:
    """Only what the database cannot do is a refusal; the rest must be seen."""
    with pytest.raises(DBAPIError, match="wingspan"), station.book.reading() as connection:
        connection.execute(text("SELECT wingspan FROM piece"))
