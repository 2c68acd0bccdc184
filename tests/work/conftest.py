"""What every test of the scripts works with."""

import pytest

from stockroom.books.opening import Book
from tests.builders import Station
from tests.floor import Floor


@pytest.fixture
def station(book: Book) -> Station:
    """Somebody at work at an empty book, on each engine in turn."""
    return Station(book)


@pytest.fixture
def floor(book: Book) -> Floor:
    """Somebody at work anywhere on the floor, at an empty book, on each engine in turn."""
    return Floor(book)
