"""What every test can ask for: an empty book of each kind, and a home nobody has touched."""

import os
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

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


def postgresql_url() -> str:
    """The server to test on; none skips the test, or fails it where both engines are required."""
    if url := os.environ.get("STOCKROOM_TEST_POSTGRESQL"):
        return url
    if os.environ.get("STOCKROOM_REQUIRE_POSTGRESQL") == "1":
        pytest.fail("STOCKROOM_TEST_POSTGRESQL names no server, and PostgreSQL is required here")
    pytest.skip("STOCKROOM_TEST_POSTGRESQL names no server; scripts/test starts one")


@pytest.fixture(params=["sqlite", pytest.param("postgresql", marks=pytest.mark.postgresql)])
def book_url(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """Where no book is yet, on each engine in turn."""
    if request.param == "sqlite":
        yield f"sqlite:///{tmp_path / 'book.db'}"
    else:
        from tests.engines import an_own_schema

        with an_own_schema(postgresql_url()) as url:
            yield url


@pytest.fixture
def book(book_url: str) -> Iterator["Book"]:
    """An empty book on each engine in turn."""
    from tests.engines import new_book

    made = new_book(book_url)
    yield made
    made.close()
