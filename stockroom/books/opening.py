"""Opening and making a book: one SQLite file, or one PostgreSQL schema."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any
from urllib.parse import quote

from sqlalchemy import URL, Connection, Engine, NullPool, create_engine, event, make_url
from sqlalchemy.exc import ArgumentError

from stockroom.books.faults import faults
from stockroom.books.migrating import HEAD, migrate, revision_of
from stockroom.errors import Code, Refusal, clean_text

BUSY_SECONDS = 10.0


class Book:
    """One open book; readers and writers take connections from it and hand them back."""

    def __init__(self, url: URL, *, read_only: bool = False) -> None:
        self.url = url
        self.name = _name(url)
        self.read_only = read_only
        self._engine = _engine(url, read_only=read_only)
        self._writer = self._engine.execution_options(begin="BEGIN IMMEDIATE")

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A connection inside one read transaction: everything read belongs to one moment."""
        with faults(self.name), self._engine.connect() as connection:
            yield connection

    @contextmanager
    def transaction(self) -> Iterator[Connection]:
        """A connection inside one write transaction; an exception takes everything back."""
        if self.read_only:
            raise Refusal(
                Code.BOOK_READ_ONLY,
                f"The book {self.name} may only be read here; change its permissions.",
            )
        with faults(self.name), self._writer.begin() as connection:
            yield connection

    def close(self) -> None:
        """Let the connections go."""
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
    path = _path(url)
    if path is not None and not path.exists():
        raise Refusal(
            Code.BOOK_MISSING,
            f"There is no book at {path}: make one with `stockroom book set`, "
            "or name another with --book.",
        )
    read_only = path is not None and not os.access(path, os.W_OK)
    book = Book(url, read_only=read_only)
    try:
        _bring_up_to_date(book, path)
    except BaseException:
        book.close()
        raise
    return book


def create_book(where: str) -> Book:
    """Make a new, empty book, or open the one that is there."""
    url = book_url(where)
    path = _path(url)
    if path is not None and path.exists() and path.stat().st_size > 0:
        return open_book(where)
    if path is not None and not path.parent.is_dir():
        raise Refusal(
            Code.BOOK_UNREACHABLE,
            f"The book cannot be made: there is no folder {path.parent}.",
        )
    book = Book(url)
    try:
        with book.transaction() as connection:
            migrate(connection)
    except BaseException:
        book.close()
        raise
    return book


def book_exists(where: str) -> bool:
    """Whether a book is there to be opened."""
    url = book_url(where)
    path = _path(url)
    if path is not None:
        return path.exists() and path.stat().st_size > 0
    book = Book(url)
    try:
        with book.reading() as connection:
            return revision_of(connection) is not None
    finally:
        book.close()


def _bring_up_to_date(book: Book, path: Path | None) -> None:
    with book.reading() as connection:
        revision = revision_of(connection)
    if revision == HEAD:
        return
    if revision is None:
        raise Refusal(
            Code.BOOK_DAMAGED,
            f"{book.name} is no stock book: name another with --book.",
        )
    if revision > HEAD:
        raise Refusal(
            Code.BOOK_NEWER,
            f"The book {book.name} was written by a newer version of the program: update this one.",
        )
    if path is not None:
        copy_file(path, path.with_name(f"{path.name}.before-{HEAD}"))
    with book.transaction() as connection:
        migrate(connection)


def copy_file(source: Path, target: Path) -> None:
    """Copy a SQLite book as of one moment, while others may write; the copy is put in place whole."""
    half = target.with_name(f".{target.name}.{os.getpid()}.half")
    try:
        with sqlite3.connect(source) as old, sqlite3.connect(half) as new:
            old.backup(new, pages=-1)
        old.close()
        new.close()
        with half.open("rb") as written:
            os.fsync(written.fileno())
        half.replace(target)
    except (OSError, sqlite3.Error) as error:
        half.unlink(missing_ok=True)
        raise Refusal(
            Code.FILE_UNWRITABLE, f"The copy {target} was not written: {error}."
        ) from error


def _path(url: URL) -> Path | None:
    if url.get_backend_name() != "sqlite" or not url.database:
        return None
    return Path(url.database)


def _name(url: URL) -> str:
    path = _path(url)
    return str(path) if path is not None else url.render_as_string(hide_password=True)


def _engine(url: URL, *, read_only: bool) -> Engine:
    if url.get_backend_name() != "sqlite":
        try:
            return create_engine(url, poolclass=NullPool)
        except ModuleNotFoundError as error:
            raise Refusal(
                Code.BOOK_UNREACHABLE,
                "A PostgreSQL book needs one more package: pip install 'stockroom[postgresql]'.",
            ) from error
    if read_only and url.database:
        wal = Path(f"{url.database}-wal")
        still = "" if wal.exists() else "&immutable=1"
        url = url.set(database=f"file:{quote(url.database)}?mode=ro{still}&uri=true")
    engine = create_engine(url, connect_args={"timeout": BUSY_SECONDS})
    event.listen(engine, "connect", _read_settings if read_only else _write_settings)
    event.listen(engine, "begin", _begin)
    return engine


def _write_settings(connection: Any, _record: object) -> None:
    _read_settings(connection, _record)
    connection.execute("PRAGMA journal_mode=WAL")
    connection.execute("PRAGMA synchronous=FULL")


def _read_settings(connection: Any, _record: object) -> None:
    connection.isolation_level = None
    connection.execute("PRAGMA foreign_keys=ON")


def _begin(connection: Connection) -> None:
    connection.exec_driver_sql(connection.get_execution_options().get("begin", "BEGIN"))
