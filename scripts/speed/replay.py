"""The statements a script sent to its book, and the same statements again in bare sqlite3."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from time import perf_counter
from typing import Any
from unittest.mock import patch

from sqlalchemy import Connection, Engine, event

from stockroom.books import prepared
from stockroom.books.opening import Book

Statement = tuple[str, Any]


@contextmanager
def recorded(book: Book | None = None) -> Iterator[list[Statement]]:
    """Every statement sent meanwhile, with its parameters as the driver was given them.

    Of one book alone where it is named: what was listened to once stays slower, and so would all.
    """
    engine: Any = Engine if book is None else _engine(book)
    sent: list[Statement] = []

    def keep(_connection: object, _cursor: object, sql: str, given: Any, *_more: object) -> None:
        sent.append((sql, given))

    def end(word: str) -> Callable[[Connection], None]:
        return lambda _connection: sent.append((word, ()))

    hooks: dict[str, Callable[..., None]] = {
        "before_cursor_execute": keep,
        "commit": end("COMMIT"),
        "rollback": end("ROLLBACK"),
    }
    for name, hook in hooks.items():
        event.listen(engine, name, hook)
    try:
        with patch.object(prepared, "send", _keeping(engine, sent)):
            yield sent
    finally:
        for name, hook in hooks.items():
            event.remove(engine, name, hook)


def _keeping(engine: Any, sent: list[Statement]) -> Callable[..., Any]:
    """What prepared statements are sent by, and kept too; the library's events do not hear of them."""
    send = prepared.send

    def keep(connection: Connection, sql: str, values: Any) -> Any:
        if engine in (Engine, connection.engine):
            sent.append((sql, values))
        return send(connection, sql, values)

    return keep


def _engine(book: Book) -> Engine:
    with book.reading() as connection:
        return connection.engine


def bare(path: Path) -> sqlite3.Connection:
    """A connection set as the program sets its own."""
    connection = sqlite3.connect(path, isolation_level=None)
    connection.execute("PRAGMA foreign_keys=ON")
    connection.execute("PRAGMA synchronous=FULL")
    return connection


def replayed(connection: sqlite3.Connection, statements: list[Statement]) -> float:
    """How long the statements take, every row of every answer fetched."""
    began = perf_counter()
    for sql, given in statements:
        connection.execute(sql, given).fetchall()
    return perf_counter() - began
