"""The engine of a book, set as every book is: a file that waits for the disk, or a server."""

import sqlite3
from collections.abc import Callable
from math import ceil
from pathlib import Path
from threading import Event
from typing import Any
from urllib.parse import quote

from sqlalchemy import URL, Connection, Engine, NullPool, create_engine, event

from stockroom.books import prepared
from stockroom.errors import Code, Refusal

BUSY_SECONDS = 10.0
_AGAIN_SECONDS = 0.01
_LEAST_INDEX = 32_768


def engine_of(url: URL, *, read_only: bool, lasting: bool) -> Engine:
    """The engine; that of a book that need not last does not wait for the disk."""
    if url.get_backend_name() != "sqlite":
        try:
            return create_engine(url, pool_pre_ping=True)  # a server may have let go meanwhile
        except ModuleNotFoundError as error:
            raise Refusal(
                Code.BOOK_UNREACHABLE,
                "A PostgreSQL book needs one more package: pip install 'stockroom[postgresql]'.",
            ) from error
    if read_only:
        engine = create_engine(
            "sqlite://", creator=_reading(url.database or ""), poolclass=NullPool
        )
    else:
        engine = create_engine(url, connect_args={"timeout": BUSY_SECONDS})
    event.listen(engine, "connect", _read_settings if read_only else _write_settings)
    if not lasting:
        event.listen(engine, "connect", _hurry)
    return engine


def begin(connection: Connection, how: str) -> None:
    """Begin on SQLite, whose driver was told not to; PostgreSQL's begins by itself.

    Said here and not at an event of the engine: where those are heard, every statement is slower.
    """
    if connection.dialect.name == "sqlite":
        prepared.send(connection, how, ())


def is_at_rest(path: Path) -> bool:
    """Whether nobody has a book open, so that its file alone is all of it."""
    log, index = (path.with_name(f"{path.name}{end}") for end in ("-wal", "-shm"))
    if not log.exists():
        return True
    # A full disk leaves these two behind: a log without a line, and an index that could not grow.
    return log.stat().st_size == 0 and index.exists() and index.stat().st_size < _LEAST_INDEX


def _reading(path: str) -> Callable[[], sqlite3.Connection]:
    """How to connect to a file that may not be written, and beside which nothing may be either."""

    def connect() -> sqlite3.Connection:
        query = "mode=ro&immutable=1" if is_at_rest(Path(path)) else "mode=ro"
        return sqlite3.connect(f"file:{quote(path)}?{query}", uri=True, timeout=BUSY_SECONDS)

    return connect


def _write_settings(connection: Any, _record: object) -> None:
    _read_settings(connection, _record)
    connection.execute("PRAGMA synchronous=FULL")
    # Kept in the file from then on; a file that holds something already may be no book of ours.
    if connection.execute("PRAGMA page_count").fetchone() == (0,):
        _keep_log(connection)


def _keep_log(connection: Any) -> None:
    """Keep a log beside a new file; several stations that make one book at once all ask for it.

    SQLite lets some wait for each other here and refuses others at once. Nobody waits, and each tries
    again: else every try might take as long as all of them may.
    """
    connection.execute("PRAGMA busy_timeout=0")
    _try_for_a_log(connection)
    connection.execute(f"PRAGMA busy_timeout={round(BUSY_SECONDS * 1_000)}")


def _try_for_a_log(connection: Any) -> None:
    for tries_left in reversed(range(ceil(BUSY_SECONDS / _AGAIN_SECONDS))):
        try:
            connection.execute("PRAGMA journal_mode=WAL")
        except sqlite3.OperationalError as error:
            if error.sqlite_errorcode != sqlite3.SQLITE_BUSY or not tries_left:
                raise
        else:
            return
        Event().wait(_AGAIN_SECONDS)


def _hurry(connection: Any, _record: object) -> None:
    connection.execute("PRAGMA synchronous=OFF")


def _read_settings(connection: Any, _record: object) -> None:
    connection.isolation_level = None
    connection.execute("PRAGMA foreign_keys=ON")
