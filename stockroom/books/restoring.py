"""Putting a copy back in place of a book: verified first, and never without a copy of what was there."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from shutil import copyfile
from tempfile import TemporaryDirectory

from sqlalchemy import Connection, Integer, select, text

from stockroom.books.backup import Copy, copy_rows, held_in, refuse_taken
from stockroom.books.climate_tables import all_tables
from stockroom.books.migrating import revision_of
from stockroom.books.opening import Book, book_url, create_book, file_of, open_book, refuse_other
from stockroom.books.tables import CounterRow, table_of
from stockroom.books.verify import verify
from stockroom.errors import Code, Refusal, clean_text

_WAIT_SECONDS = 2.0
_BESIDE = ("-wal", "-shm")


@dataclass(frozen=True, slots=True)
class Restored:
    """What was put in place, and where that which was there before is kept, if there was any."""

    copy: Copy
    kept: Path | None


def restore(where: str, file: Path, *, now: datetime) -> Restored:
    """Put a backup in place of the book, whole or not at all.

    A SQLite book is kept beside itself first. A PostgreSQL book must be empty, so that there is
    nothing to keep.
    """
    target = file_of(book_url(where))
    with _checked(file) as (part, copy):
        if target is None:
            _fill(where, part)
            return Restored(copy, None)
        return Restored(copy, _put(part, target, now))


@contextmanager
def _checked(file: Path) -> Iterator[tuple[Path, Copy]]:
    """A copy of a backup, brought up to date and verified; the backup itself is only read."""
    if not file.is_file():
        raise Refusal(
            Code.BOOK_MISSING, f"There is no file {clean_text(str(file))} to restore from."
        )
    with TemporaryDirectory(prefix="stockroom-") as folder:
        part = Path(folder) / "part.db"
        with closing(Book(book_url(str(file)), read_only=True)) as source:
            with source.reading() as connection:
                refuse_other(source, revision_of(connection))
            source.copy_to(part)
        with closing(open_book(str(part))) as copy, copy.reading() as connection:
            if findings := verify(connection):
                raise Refusal(
                    Code.VERIFY_FOUND,
                    f"{clean_text(str(file))} was not restored: "
                    f"{findings[0].piece} {findings[0].text}.",
                )
            held = held_in(connection, file)
        yield part, held


def _put(part: Path, target: Path, now: datetime) -> Path | None:
    """Put a checked copy in the place of a file; where what was there is kept now."""
    if not target.parent.is_dir():
        raise Refusal(
            Code.BOOK_UNREACHABLE, f"{clean_text(str(target))} cannot be made: no such folder."
        )
    there = [path for path in _all_of(target) if path.exists()]
    if not there:
        _write(part, target)
        return None
    kept = target.with_name(f"{target.name}.before-restore-{now.astimezone(UTC):%Y%m%dT%H%M%SZ}")
    refuse_taken(kept)
    try:
        _over(part, target, kept)
    except sqlite3.OperationalError as error:
        raise _in_the_way(target, error) from error
    except sqlite3.DatabaseError:
        # No database at all, or a damaged one: nothing can be read, so the files are put aside.
        for old, aside in zip(_all_of(target), _all_of(kept), strict=True):
            if old.exists():
                old.replace(aside)
        _write(part, target)
    return kept


def _over(part: Path, target: Path, kept: Path) -> None:
    """Copy the book away and the backup over it, while nobody else has it open."""
    with closing(sqlite3.connect(target, timeout=_WAIT_SECONDS, isolation_level=None)) as book:
        # The lock of one exclusive transaction is kept from here to the end.
        book.execute("PRAGMA locking_mode=EXCLUSIVE")
        book.execute("BEGIN EXCLUSIVE")
        book.execute("COMMIT")
        _copied(book, kept)
        with closing(sqlite3.connect(part)) as checked:
            checked.backup(book)


def _copied(book: sqlite3.Connection, kept: Path) -> None:
    try:
        with closing(sqlite3.connect(kept)) as copy:
            book.backup(copy)
        _flushed(kept)
    except BaseException:
        kept.unlink(missing_ok=True)
        raise


def _write(part: Path, target: Path) -> None:
    """Put a file where there is none, whole."""
    half = target.with_name(f".{target.name}.{os.getpid()}.part")
    try:
        copyfile(part, half)
        _flushed(half)
        half.replace(target)
    except OSError as error:
        raise Refusal(
            Code.FILE_UNWRITABLE, f"{clean_text(str(target))} was not written: {error.strerror}."
        ) from error
    finally:
        half.unlink(missing_ok=True)


def _flushed(file: Path) -> None:
    with file.open("rb") as written:
        os.fsync(written.fileno())


def _all_of(file: Path) -> tuple[Path, ...]:
    return (file, *(Path(f"{file}{beside}") for beside in _BESIDE))


def _in_the_way(target: Path, error: sqlite3.OperationalError) -> Refusal:
    name = clean_text(str(target))
    if "locked" in str(error):
        return Refusal(
            Code.BOOK_LOCKED, f"The book {name} is open elsewhere: close it there, then restore."
        )
    return Refusal(Code.BOOK_UNREACHABLE, f"The book {name} was not restored: {error}.")


def _fill(where: str, part: Path) -> None:
    """Copy the rows of a checked backup into an empty PostgreSQL book."""
    with (
        closing(create_book(where)) as book,
        closing(open_book(str(part))) as copy,
        copy.reading() as source,
        book.transaction() as there,
    ):
        if not _is_bare(there):
            raise Refusal(
                Code.ALREADY_THERE,
                f"The book {book.name} is not empty: restore into an empty schema, then name it "
                "with --book.",
            )
        copy_rows(source, there)
        _go_on_counting(there)
        if findings := verify(there):
            raise Refusal(
                Code.VERIFY_FOUND, f"Not restored: {findings[0].piece} {findings[0].text}."
            )


def _is_bare(connection: Connection) -> bool:
    tables = (one for one in all_tables() if one is not table_of(CounterRow))
    return not any(connection.execute(select(table).limit(1)).first() for table in tables)


def _go_on_counting(connection: Connection) -> None:
    """Let new ids begin behind those that were copied."""
    for table in all_tables():
        if "id" in table.c and isinstance(table.c.id.type, Integer):
            connection.execute(
                text(
                    "SELECT setval(pg_get_serial_sequence(:name, 'id'), max(id)) "  # noqa: S608
                    f'FROM "{table.name}" HAVING max(id) IS NOT NULL'
                ),
                {"name": f'"{table.name}"'},
            )
