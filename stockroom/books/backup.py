"""Copying a book as of one moment into one SQLite file, verified before it is put in place."""

import os
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import Connection, delete, func, insert, select

from stockroom.books.chain import digest
from stockroom.books.climate_tables import DERIVED, all_tables
from stockroom.books.opening import Book, create_book, open_book
from stockroom.books.tables import CounterRow, MoveRow, PieceRow, table_of
from stockroom.books.verify import verify
from stockroom.errors import Code, Refusal, clean_text

_AT_ONCE = 2_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    """What a verified copy holds, and the hash over the heads of all its pieces."""

    path: Path
    pieces: int
    moves: int
    heads: str


def copy_book(book: Book, target: Path) -> Copy:
    """Copy a book of either engine to a new SQLite file; one that is there already is refused."""
    refuse_taken(target)
    half = target.with_name(f".{target.name}.{os.getpid()}.part")
    try:
        if book.url.get_backend_name() == "sqlite":
            book.copy_to(half)
        else:
            _in_a_file(book, half)
        held = _verified(half, target)
        half.replace(target)
    except OSError as error:
        raise Refusal(
            Code.FILE_UNWRITABLE, f"The copy {target} was not written: {error.strerror}."
        ) from error
    finally:
        for leftover in (half, Path(f"{half}-wal"), Path(f"{half}-shm")):
            leftover.unlink(missing_ok=True)
    return held


def refuse_taken(target: Path) -> None:
    """Refuse a file that is there already, or that cannot be made; nothing is overwritten."""
    why: str | None = None
    try:
        if target.exists():
            why = "it is there already"
        elif not target.parent.is_dir():
            why = "its folder is not there"
    except OSError as error:
        why = error.strerror
    if why is not None:
        raise Refusal(
            Code.FILE_UNWRITABLE,
            f"{clean_text(str(target))} is not written, {why}: name another file.",
        )


def copy_rows(source: Connection, there: Connection) -> None:
    """Copy every row of one book that cannot be made again into another that has none yet."""
    there.execute(delete(table_of(CounterRow)))
    streaming = {"yield_per": _AT_ONCE}
    for table in all_tables():
        if table.name in DERIVED:
            continue
        wanted = select(table).order_by(*table.primary_key)
        for part in source.execute(wanted, execution_options=streaming).mappings().partitions():
            there.execute(insert(table), [dict(row) for row in part])


def _in_a_file(book: Book, half: Path) -> None:
    copy = create_book(str(half))
    try:
        with book.reading() as source, copy.transaction() as there:
            copy_rows(source, there)
    finally:
        copy.close()


def _verified(half: Path, target: Path) -> Copy:
    copy = open_book(str(half))
    try:
        with copy.reading() as connection:
            if findings := verify(connection):
                raise Refusal(
                    Code.VERIFY_FOUND,
                    f"The copy was not kept: {findings[0].piece} {findings[0].text}.",
                )
            return held_in(connection, target)
    finally:
        copy.close()


def held_in(connection: Connection, target: Path) -> Copy:
    """What a copy holds."""
    pieces = table_of(PieceRow)
    heads = connection.execute(select(pieces.c.code, pieces.c.head).order_by(pieces.c.code))
    listed = [[row.code, row.head] for row in heads]
    moves = connection.execute(select(func.count()).select_from(table_of(MoveRow))).scalar_one()
    return Copy(path=target, pieces=len(listed), moves=moves, heads=digest(listed))
