"""What every test of words works with."""

import pytest

from stockroom.books.opening import Book
from stockroom.books.values import Standing
from stockroom.work import look
from tests.builders import Station


@pytest.fixture
def book_url(tmp_path: object) -> str:
    """One engine is enough for words."""
    return f"sqlite:///{tmp_path}/book.db"


@pytest.fixture
def station(book: Book) -> Station:
    """Somebody at work at an empty book."""
    return Station(book)


def standing(station: Station, code: str) -> Standing:
    """A piece as the books have it."""
    return look.piece(station.book, code, now=station.now).judged.standing
