"""New books to test with, on either engine, made as fast as they can be.

The first of each engine is made by the program; the others are its copies. None of them waits for
the disk: no test cuts the power.
"""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import closing, contextmanager
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from uuid import uuid4

from psycopg import ClientCursor, connect
from sqlalchemy import URL, NullPool, create_engine, make_url, text

from scripts.speed.replay import recorded
from stockroom.books.opening import Book, create_book, file_of

_WRITING = ("CREATE", "ALTER", "INSERT", "UPDATE")


def new_book(where: str | Path) -> Book:
    """A new book: a file, or the empty schema a URL names."""
    url = make_url(f"sqlite:///{where}" if isinstance(where, Path) else where)
    path = file_of(url)
    if path is None:
        _send(url, _statements(url.difference_update_query(["options"])))
    else:
        path.write_bytes(_content())
    return create_book(url.render_as_string(hide_password=False), lasting=False)


@contextmanager
def an_own_schema(server: URL | str) -> Iterator[str]:
    """The URL of an empty schema of a PostgreSQL server, dropped afterwards."""
    name = f"t_{uuid4().hex}"
    engine = create_engine(server, poolclass=NullPool, isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        connection.execute(text(f"CREATE SCHEMA {name}"))
    try:
        url = make_url(server).update_query_dict({"options": f"-csearch_path={name}"})
        yield url.render_as_string(hide_password=False)
    finally:
        with engine.connect() as connection:
            connection.execute(text(f"DROP SCHEMA {name} CASCADE"))


@cache
def _content() -> bytes:
    """An empty book on SQLite."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "book.db"
        create_book(str(path)).close()
        return path.read_bytes()


@cache
def _statements(server: URL) -> str:
    """All that makes an empty book on PostgreSQL, in one text."""
    with an_own_schema(server) as url:
        with recorded() as sent:
            create_book(url).close()
        with closing(_connected(make_url(url))) as connection:
            cursor = ClientCursor(connection)
            return ";".join(
                cursor.mogrify(sql, one)
                for sql, given in sent
                if sql.lstrip().startswith(_WRITING)
                for one in _each(given)
            )


def _each(given: Mapping[str, Any] | Sequence[Mapping[str, Any]]) -> Sequence[Mapping[str, Any]]:
    return [given] if isinstance(given, Mapping) else given


def _send(url: URL, statements: str) -> None:
    with _connected(url) as connection:
        connection.execute(statements)


def _connected(url: URL) -> Any:
    plain = url.set(drivername="postgresql")
    return connect(plain.render_as_string(hide_password=False))
