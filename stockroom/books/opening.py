"""Opening and making a book: one SQLite file, or one PostgreSQL schema."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from typing import cast

from sqlalchemy import URL, Connection, Engine, make_url
from sqlalchemy.exc import ArgumentError

from stockroom.books.engine import begin, engine_of, is_at_rest
from stockroom.books.faults import faults
from stockroom.books.migrating import HEAD, is_empty, migrate, revision_of
from stockroom.errors import Code, Refusal, clean_text

_LONGEST_NAME = 240


class Book:
    """One open book; readers and writers take connections from it and hand them back."""

    def __init__(self, url: URL, *, read_only: bool = False, lasting: bool = True) -> None:
        self.url = url
        self.name = _name(url)
        self.read_only = read_only
        self._engine = engine_of(url, read_only=read_only, lasting=lasting)
        self._reader = self._engine
        self._idle: list[Connection] = []
        self._is_closed = False
        if url.get_backend_name() == "postgresql":
            self._reader = self._engine.execution_options(isolation_level="REPEATABLE READ")

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A connection inside one read transaction: everything read belongs to one moment."""
        with faults(self.name), self._line(self._reader) as connection, connection.begin():
            begin(connection, "BEGIN")
            yield connection

    @contextmanager
    def transaction(self) -> Iterator[Connection]:
        """A connection inside one write transaction; an exception takes everything back."""
        if self.read_only:
            raise Refusal(
                Code.BOOK_READ_ONLY,
                f"The book {self.name} may only be read here; change its permissions, "
                "or make room on its disk.",
            )
        with faults(self.name), self._line(self._engine) as connection, connection.begin():
            begin(connection, "BEGIN IMMEDIATE")
            yield connection

    @contextmanager
    def _line(self, engine: Engine) -> Iterator[Connection]:
        """A connection nobody else uses meanwhile.

        One to a file is kept as it is: to take it from the library's pool and to hand it back there
        would be a twentieth of a scan. One to a server is asked first whether it still holds.
        """
        if self.read_only or engine.dialect.name != "sqlite":
            with engine.connect() as connection:
                yield connection
            return
        try:
            connection = self._idle.pop()
        except IndexError:
            connection = engine.connect()
        try:
            yield connection
        except BaseException:
            connection.close()
            raise
        if self._is_closed:
            connection.close()
        else:
            self._idle.append(connection)

    def copy_to(self, target: Path) -> None:
        """Copy a SQLite book as of one moment, while others may write; the copy is put in place whole."""
        half = target.with_name(f".{target.name}.{os.getpid()}.half")
        try:
            with (
                faults(self.name),
                closing(self._engine.raw_connection()) as old,
                closing(sqlite3.connect(half)) as new,
            ):
                cast("sqlite3.Connection", old.driver_connection).backup(new)
            with half.open("rb") as written:
                os.fsync(written.fileno())
            half.replace(target)
        except (OSError, sqlite3.Error) as error:
            raise Refusal(
                Code.FILE_UNWRITABLE,
                f"The copy {clean_text(str(target), _LONGEST_NAME)} was not written: {error}.",
            ) from error
        finally:
            half.unlink(missing_ok=True)

    def close(self) -> None:
        """Let the connections go."""
        self._is_closed = True
        idle, self._idle = self._idle, []
        for connection in idle:
            connection.close()
        self._engine.dispose()


def book_url(where: str) -> URL:
    """The URL of a book named by a path or by a URL; passwords may come from the environment."""
    if "://" not in where:
        return URL.create("sqlite", database=str(Path(where).expanduser()))
    with suppress(ArgumentError, ValueError):
        url = make_url(where)
        if url.get_backend_name() in ("postgresql", "postgres"):
            return url.set(drivername="postgresql+psycopg")
        if url.drivername == "sqlite":
            return url
    raise Refusal(
        Code.BOOK_UNREACHABLE,
        f"{clean_text(where)} names no book: write a file, or postgresql://host/name.",
    )


def open_book(where: str) -> Book:
    """Open a book that exists, bringing its tables up to date; refuse what is no book, or newer."""
    url = book_url(where)
    path = file_of(url)
    if path is not None and not _is_there(path):
        raise Refusal(
            Code.BOOK_MISSING,
            f"There is no book at {_name(url)}: make one with `stockroom book set`, "
            "or name another with --book.",
        )
    try:
        return _opened(_book(url), makes=False)
    except Refusal as refusal:
        if refusal.code is not Code.BOOK_FULL or path is None or not is_at_rest(path):
            raise
    return _opened(Book(url, read_only=True), makes=False)  # what is full can still be read


def create_book(where: str, *, lasting: bool = True) -> Book:
    """Make a new, empty book, or open the one that is there.

    One that is not `lasting` does not wait for the disk, and may be damaged where the power fails:
    for a book that can be made again.
    """
    url = book_url(where)
    path = file_of(url)
    if path is not None and not _is_there(path) and not path.parent.is_dir():
        raise Refusal(
            Code.BOOK_UNREACHABLE,
            f"The book {_name(url)} cannot be made: its folder is not there.",
        )
    return _opened(_book(url, lasting=lasting), makes=True)


def book_exists(where: str) -> bool:
    """Whether a book is there to be opened."""
    url = book_url(where)
    path = file_of(url)
    if path is not None and not (_is_there(path) and path.stat().st_size):
        return False
    with closing(_book(url)) as book, book.reading() as connection:
        return revision_of(connection) is not None


def _is_there(path: Path) -> bool:
    try:
        return path.exists()
    except OSError as error:
        raise Refusal(
            Code.BOOK_UNREACHABLE,
            f"The book {clean_text(str(path))} cannot be reached: {error.strerror}.",
        ) from error


def _book(url: URL, *, lasting: bool = True) -> Book:
    path = file_of(url)
    is_there = path is not None and _is_there(path)
    read_only = is_there and not os.access(path or "", os.W_OK)
    return Book(url, read_only=read_only, lasting=lasting)


def _opened(book: Book, *, makes: bool) -> Book:
    try:
        _bring_up_to_date(book, makes=makes)
    except BaseException:
        book.close()
        raise
    return book


def _bring_up_to_date(book: Book, *, makes: bool) -> None:
    with book.reading() as connection:
        revision = revision_of(connection)
        is_free = makes and revision is None and is_empty(connection)
    if revision == HEAD:
        return
    if not is_free:
        refuse_other(book, revision)
    path = file_of(book.url)
    with book.transaction() as connection:
        # Looked at again: another station may have made it, or brought it up to date, meanwhile.
        if path is not None and revision_of(connection) not in (None, HEAD):
            book.copy_to(path.with_name(f"{path.name}.before-{HEAD}"))
        migrate(connection)


def refuse_other(book: Book, revision: str | None) -> None:
    """Refuse what is no stock book, or one this program does not know yet."""
    if revision is None or not revision.isdecimal():
        raise Refusal(Code.BOOK_DAMAGED, f"{book.name} is no stock book: name another with --book.")
    if revision > HEAD:
        raise Refusal(
            Code.BOOK_NEWER,
            f"The book {book.name} was written by a newer version of the program: update this one.",
        )


def file_of(url: URL) -> Path | None:
    """The file of a SQLite book."""
    if url.get_backend_name() != "sqlite" or not url.database:
        return None
    return Path(url.database)


def _name(url: URL) -> str:
    path = file_of(url)
    if path is not None:
        return clean_text(str(path), _LONGEST_NAME)
    return url.render_as_string(hide_password=True)
