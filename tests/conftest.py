"""What every test can ask for: an empty book of each kind, and a home nobody has touched."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING
from uuid import uuid4

import pytest
from hypothesis import settings

if TYPE_CHECKING:
    from stockroom.books.opening import Book

NOW = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)

settings.register_profile("dev", max_examples=50)
settings.register_profile("ci", max_examples=300, derandomize=True, deadline=None)
settings.load_profile("ci" if os.environ.get("CI") else "dev")


@pytest.fixture(autouse=True)
def _untouched_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The developer's own book and settings neither help a test nor suffer from it."""
    for name in [name for name in os.environ if name.startswith("STOCKROOM_")]:
        if not name.startswith(("STOCKROOM_TEST_", "STOCKROOM_REQUIRE_")):
            monkeypatch.delenv(name)
    for kind in ("CACHE", "CONFIG", "DATA", "STATE"):
        monkeypatch.setenv(f"XDG_{kind}_HOME", str(tmp_path / "home" / kind.lower()))


def _postgresql_url() -> str:
    """The server to test on; none skips the test, or fails it where both engines are required."""
    if url := os.environ.get("STOCKROOM_TEST_POSTGRESQL"):
        return url
    if os.environ.get("STOCKROOM_REQUIRE_POSTGRESQL") == "1":
        pytest.fail("STOCKROOM_TEST_POSTGRESQL names no server, and PostgreSQL is required here")
    pytest.skip("STOCKROOM_TEST_POSTGRESQL names no server; scripts/test starts one")


@contextmanager
def _an_own_schema(server: str) -> Iterator[str]:
    """The URL of an empty schema of the server, dropped afterwards."""
    from sqlalchemy import NullPool, create_engine, make_url, text

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


@pytest.fixture(params=["sqlite", pytest.param("postgresql", marks=pytest.mark.postgresql)])
def book_url(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """Where no book is yet, on each engine in turn."""
    if request.param == "sqlite":
        yield f"sqlite:///{tmp_path / 'book.db'}"
    else:
        with _an_own_schema(_postgresql_url()) as url:
            yield url


@pytest.fixture
def book(book_url: str) -> Iterator["Book"]:
    """An empty book on each engine in turn."""
    from stockroom.books.opening import create_book

    made = create_book(book_url)
    yield made
    made.close()
