"""What every test of the books works with."""

import pytest

from stockroom.books.opening import Book
from tests.builders import Station


@pytest.fixture
def station(book: Book) -> Station:
    """Somebody at work at an empty book, on each engine in turn."""
    return Station(book)
