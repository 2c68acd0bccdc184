"""Generated shops for all tests that look: one for each day, made once and copied where it is changed."""

import shutil
import sqlite3
from datetime import UTC, date, datetime, time
from pathlib import Path
from zoneinfo import ZoneInfo

from stockroom.books.opening import create_book
from stockroom.demo.generate import generate

LISBON = ZoneInfo("Europe/Lisbon")
TODAY = date(2026, 11, 25)
DAYS = (
    TODAY,  # a Wednesday
    date(2028, 2, 29),
    date(2026, 12, 31),
    date(2027, 3, 28),  # a Sunday, in whose night the clock is put forward
)
CENTURY_LATER = datetime(2126, 1, 1, tzinfo=UTC)
LONG_BEFORE = datetime(2020, 1, 1, tzinfo=UTC)


def at(day: date, hour: int) -> datetime:
    """An hour on the shop's clock."""
    return datetime.combine(day, time(hour), LISBON).astimezone(UTC)


def a_shop(path: Path, *, seed: int = 7, today: date = TODAY) -> Path:
    """The file of a generated shop."""
    book = create_book(str(path), lasting=False)
    generate(book, seed=seed, today=today)
    book.close()
    return path


def copied(path: Path, folder: Path) -> Path:
    """A copy of a shop that a test may change."""
    return Path(shutil.copy(path, folder / "book.db"))


def dump(path: Path) -> list[str]:
    """All that is in a book, as SQL."""
    with sqlite3.connect(path) as connection:
        found = list(connection.iterdump())
    connection.close()
    return found
