"""A backup is put back whole, and never without a copy of what was there."""

import sqlite3
from collections.abc import Callable, Mapping
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import text

from stockroom.books.opening import Book, create_book, open_book
from stockroom.books.restoring import Restored, restore
from stockroom.errors import Code, Refusal
from stockroom.units import M
from tests.builders import Station, dump, is_sound
from tests.conftest import NOW
from tests.weather import Weather

STORED = Path(__file__).parent / "stored" / "book-0001.sql"


@pytest.fixture
def backup(tmp_path: Path) -> Path:
    """A book with some history, as a backup, with a roll of 28 m."""
    file = tmp_path / "backup.db"
    _make(file)
    return file


def _make(file: Path) -> None:
    with closing(create_book(str(file))) as book:
        station = Weather(book)
        station.sensor()
        station.read((0, 21.5, 48.0))
        job = station.job()
        roll = station.roll(place=station.place())
        station.cut(roll, 2 * M, job=job, offcuts=((M, M),))
        station.cut(roll, M)
        station.undo(roll)


def _held(file: Path) -> dict[str, list[Mapping[Any, Any]]]:
    with closing(open_book(str(file))) as book:
        assert is_sound(book)
        return dump(book)


def _refusal(where: Path, file: Path) -> Refusal:
    """Why a backup is not restored; nothing is changed, and no copy is left lying."""
    before = {path.name: path.read_bytes() for path in where.parent.iterdir()}
    with pytest.raises(Refusal) as caught:
        restore(str(where), file, now=NOW)
    assert {path.name: path.read_bytes() for path in where.parent.iterdir()} == before
    assert len(caught.value.sentence.splitlines()) == 1
    return caught.value


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """The book of the shop, in a folder of its own."""
    folder = tmp_path / "shop"
    folder.mkdir()
    file = folder / "book.db"
    with closing(create_book(str(file))) as book:
        Station(book).roll(lot="later")
    return file


def test_a_backup_takes_the_place_of_the_book_which_is_kept(shop: Path, backup: Path) -> None:
    """Both hold what they held, and the restored book works on."""
    was, backed_up = _held(shop), _held(backup)

    done = restore(str(shop), backup, now=NOW)

    assert done.kept == shop.with_name("book.db.before-restore-20261125T090000Z")
    assert (done.copy.pieces, done.copy.moves) == (2, 5)
    assert _held(shop) == backed_up
    assert _held(done.kept) == was
    assert sorted(path.name for path in shop.parent.iterdir()) == [shop.name, done.kept.name]
    with closing(open_book(str(shop))) as book:
        assert Station(book).cut("R000002J", M).left_nm == 27 * M
        with book.reading() as connection:
            assert connection.scalar(text("PRAGMA journal_mode")) == "wal"


def test_a_backup_is_only_read(shop: Path, backup: Path) -> None:
    """An old one stays old, whatever is made of it."""
    backup.unlink()
    with closing(sqlite3.connect(backup)) as connection:
        connection.executescript(STORED.read_text("utf-8"))
    before = backup.read_bytes()

    restore(str(shop), backup, now=NOW)

    assert backup.read_bytes() == before
    assert _held(shop)["piece"]
    assert not list(backup.parent.glob(f"{backup.name}?*"))


def test_where_no_book_is_none_has_to_be_kept(shop: Path, backup: Path) -> None:
    """On a new machine the backup becomes the book."""
    shop.unlink()

    assert restore(str(shop), backup, now=NOW).kept is None
    assert _held(shop) == _held(backup)


@pytest.mark.parametrize("damage", ["no book", "torn", "empty"])
def test_a_damaged_book_is_put_aside_as_it_is(shop: Path, backup: Path, damage: str) -> None:
    """That is when a backup is needed; not a byte of the damaged file is lost."""
    wreck = {
        "no book": b"film film film " * 1_000,
        "torn": shop.read_bytes()[:5_000] + b"\0" * 20_000,
        "empty": b"",
    }[damage]
    shop.write_bytes(wreck)

    done = restore(str(shop), backup, now=NOW)

    assert _held(shop) == _held(backup)
    assert done.kept is not None
    assert damage == "empty" or done.kept.read_bytes() == wreck


def test_a_book_that_is_open_elsewhere_is_left_alone(shop: Path, backup: Path) -> None:
    """Nobody goes on writing into a file that was taken away under them."""
    with closing(open_book(str(shop))) as book:
        Station(book).roll()

        assert _refusal(shop, backup).code is Code.BOOK_LOCKED


def _newer(file: Path) -> None:
    with closing(sqlite3.connect(file)) as connection, connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")


def _altered(file: Path) -> None:
    with closing(sqlite3.connect(file)) as connection, connection:
        connection.execute("UPDATE piece SET balance = balance + 1")


@pytest.mark.parametrize(
    ("spoil", "code"),
    [
        (Path.unlink, Code.BOOK_MISSING),
        (lambda file: file.write_bytes(b""), Code.BOOK_DAMAGED),
        (lambda file: file.write_bytes(b"film " * 2_000), Code.BOOK_DAMAGED),
        (_newer, Code.BOOK_NEWER),
        (_altered, Code.VERIFY_FOUND),
    ],
)
def test_what_is_no_sound_backup_is_refused(
    shop: Path, backup: Path, spoil: Callable[[Path], None], code: Code
) -> None:
    """Missing, empty, no book, of a newer program, or altered: the book stays as it is."""
    spoil(backup)

    assert _refusal(shop, backup).code is code


def test_a_copy_that_cannot_be_kept_stops_it(shop: Path, backup: Path) -> None:
    """Twice within a second would lose the first copy."""
    restore(str(shop), backup, now=NOW)

    assert _refusal(shop, backup).code is Code.FILE_UNWRITABLE
    with pytest.raises(Refusal, match="no such folder"):
        restore(str(shop.parent / "none" / "book.db"), backup, now=NOW)


@pytest.fixture
def empty(book: Book) -> str:
    """Where an empty book is, closed."""
    where = book.url.render_as_string(hide_password=False)
    book.close()
    return where


@pytest.mark.parametrize("book_url", ["postgresql"], indirect=True)
@pytest.mark.postgresql
def test_a_backup_becomes_a_book_on_postgresql(empty: str, backup: Path) -> None:
    """Row by row into an empty schema, where new codes and acts follow the old ones."""
    done: Restored = restore(empty, backup, now=NOW)

    assert done.kept is None
    with closing(open_book(empty)) as book:
        with closing(open_book(str(backup))) as source:
            assert dump(book) == dump(source)
        station = Station(book)
        assert station.cut("R000002J", M).left_nm == 27 * M
        assert station.roll() != "R000002J"
        station.place("B7")
        Weather(book).sensor("window")
        assert is_sound(book)
        with pytest.raises(Refusal, match="not empty"):
            restore(empty, backup, now=NOW)
