"""What a database says when it cannot go on becomes one sentence, and nothing is half done."""

import os
import resource
import sqlite3
import traceback
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError, OperationalError

from stockroom.books.faults import fault_of
from stockroom.books.opening import create_book, open_book
from stockroom.errors import Code, Refusal
from stockroom.units import M
from stockroom.work.look import rack
from stockroom.work.safekeeping import backup
from tests.builders import Station, dump, is_sound, refused

NOBODY = 65_534


def _a_book(path: Path) -> str:
    """A book with one roll in it, closed; the code of the roll."""
    with closing(create_book(str(path))) as book:
        return Station(book).roll()


def _as_nobody(do: Callable[[], None]) -> None:
    """Do something as a user without rights, in a process of its own."""
    child = os.fork()
    if child == 0:
        status = 1
        try:
            if os.getuid() == 0:
                os.setgid(NOBODY)
                os.setuid(NOBODY)
            do()
            status = 0
        except BaseException:  # noqa: BLE001 - the parent asserts; this says why
            traceback.print_exc()
        finally:
            os._exit(status)
    assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0


def _locked_up(folder: Path, *, file: int, around: int) -> Path:
    """A book under the permissions given, in a folder that anybody may reach."""
    for parent in (folder, *folder.parents):
        if parent.stat().st_uid == os.getuid() and not parent.stat().st_mode & 0o001:
            parent.chmod(parent.stat().st_mode | 0o011)
    shelf = folder / "shelf"
    shelf.mkdir()
    path = shelf / "book.db"
    _a_book(path)
    path.chmod(file)
    shelf.chmod(around)
    return path


@pytest.mark.parametrize("around", [0o555, 0o777])
def test_a_book_that_may_only_be_read_is_read_and_never_written(
    tmp_path: Path, around: int
) -> None:
    """A colleague without rights sees the rack, and is told why a cut is refused."""
    path = _locked_up(tmp_path, file=0o444, around=around)
    before = path.read_bytes()

    def look() -> None:
        with closing(open_book(str(path))) as book:
            station = Station(book)
            roll = rack(book, now=station.now).pieces[0].code
            assert is_sound(book)
            with refused(book, Code.BOOK_READ_ONLY, "change its permissions"):
                station.cut(roll, M)

    _as_nobody(look)
    assert path.read_bytes() == before


def test_a_folder_that_may_only_be_read_is_said(tmp_path: Path) -> None:
    """A file that may be written in a folder that may not cannot keep a journal beside it."""
    path = _locked_up(tmp_path, file=0o666, around=0o555)
    before = path.read_bytes()

    def look() -> None:
        with pytest.raises(Refusal) as caught, closing(open_book(str(path))) as book:
            Station(book).roll()
        assert caught.value.code in {Code.BOOK_READ_ONLY, Code.BOOK_UNREACHABLE}

    _as_nobody(look)
    assert path.read_bytes() == before


def test_a_copy_of_a_book_that_may_only_be_read_can_be_made(tmp_path: Path) -> None:
    """Who may read may take a copy home."""
    path = _locked_up(tmp_path, file=0o444, around=0o555)
    home = tmp_path / "home of another"
    home.mkdir()
    home.chmod(0o777)

    def copy() -> None:
        with closing(open_book(str(path))) as book:
            assert backup(book, home / "copy.db").pieces == 1

    _as_nobody(copy)
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
