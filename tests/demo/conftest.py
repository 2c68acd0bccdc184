"""The invented shop on each of several days; a day's shop is generated once."""

from collections.abc import Callable, Iterator
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from stockroom.books.opening import Book, open_book
from tests.demo.shops import TODAY, a_shop


@pytest.fixture(scope="session")
def shop_of(tmp_path_factory: pytest.TempPathFactory) -> Callable[[date], Path]:
    """The file of the shop as it stands on a day; nobody changes it."""

    @cache
    def made(today: date) -> Path:
        return a_shop(tmp_path_factory.mktemp("shop") / "book.db", today=today)

    return made


@pytest.fixture
def shop(shop_of: Callable[[date], Path]) -> Iterator[Book]:
    """The shop of one Wednesday, opened."""
    book = open_book(str(shop_of(TODAY)))
    yield book
    book.close()
