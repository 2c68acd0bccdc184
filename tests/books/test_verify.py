"""Verify finds what was changed behind the journal's back, and names the piece."""

import sqlite3
from contextlib import closing
from datetime import timedelta
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import select, text

from stockroom.books.opening import Book, create_book, open_book
from stockroom.books.tables import ActRow, MoveRow, PieceRow, table_of
from stockroom.errors import Exit, Refusal
from stockroom.units import M
from stockroom.work.safekeeping import verify
from tests.builders import Station, dump, is_sound
from tests.ordering import Buyer

COLUMNS = [
    (row.__tablename__, column.name)
    for row in (ActRow, MoveRow, PieceRow)
    for column in table_of(row).columns
    if column.name != "id"
]
FLIPS = 500


def _a_busy_morning(book: Book) -> str:
    """A roll with a little of everything in its journal; its code."""
    station = Station(book)
    place, job = station.place(), station.job()
    roll = station.roll(lot="L-204", place=place, shipped="2026-06-20", printed="2026-11-20")
    station.cut(roll, 2 * M, job=job, offcuts=((M, M),), note="north door")
    station.wait(hours=1)
    station.cut(roll, 3 * M)
    station.undo(roll)
    station.count(roll, length_nm=27 * M)
    station.charge(roll, M, job, at=station.now - timedelta(minutes=5))
    station.hold(roll)
    return roll


def _unguard(book: Book) -> None:
    """What somebody does who will not be stopped."""
    with book.transaction() as connection:
        if connection.dialect.name == "sqlite":
            asked = "SELECT name FROM sqlite_master WHERE type = 'trigger'"
            for name in connection.execute(text(asked)).scalars().all():
                connection.execute(text(f"DROP TRIGGER {name}"))
        else:
            for table in ("act", "move"):
                connection.execute(text(f"ALTER TABLE {table} DISABLE TRIGGER USER"))


def _changed(value: object, *, is_flag: bool) -> object:
    """Another value of the same sort, as near as one byte."""
    match value:
        case int():
            return 1 - value if is_flag else value + 1
        case str() if value:
            return chr(ord(value[0]) ^ 1) + value[1:]
        case _:
            return 1


def test_an_untouched_book_is_sound(station: Station) -> None:
    """And so is an empty one."""
    assert is_sound(station.book)
    _a_busy_morning(station.book)
    assert is_sound(station.book)


@pytest.mark.parametrize(("table", "column"), COLUMNS)
@pytest.mark.parametrize("book_url", ["sqlite"], indirect=True)
def test_one_value_changed_names_the_piece(station: Station, table: str, column: str) -> None:
    """Any value of any act, move or piece."""
    roll = _a_busy_morning(station.book)
    row = dump(station.book)[table][-1 if table != "piece" else 0]
    _unguard(station.book)
    with closing(sqlite3.connect(station.book.name)) as other:
        value = other.execute(f'SELECT "{column}" FROM "{table}" WHERE id = {row["id"]}').fetchone()
        other.execute(
            f'UPDATE "{table}" SET "{column}" = ? WHERE id = ?',
            (_changed(*value, is_flag=column.startswith(("is_", "in_"))), row["id"]),
        )
        other.commit()

    findings = verify(station.book)

    named = {finding.piece for finding in findings}
    assert roll in named or (table, column) == ("piece", "code")
    assert named - {""}


@pytest.mark.parametrize(
    ("statement", "says"),
    [
        ("UPDATE move SET delta = delta - 1 WHERE kind = 'cut'", "was changed"),
        ("UPDATE move SET balance = balance + 1 WHERE seq = 2", "was changed"),
        ("UPDATE act SET note = 'south door' WHERE note = 'north door'", "was changed"),
        ("UPDATE act SET job_id = NULL WHERE kind = 'cut'", "was changed"),
        ("DELETE FROM move WHERE kind = 'count'", "is missing"),
        ("DELETE FROM move WHERE seq = (SELECT max(seq) FROM move)", "shorter"),
        ("UPDATE move SET seq = seq + 100 WHERE kind = 'hold'", "is missing"),
        ("UPDATE piece SET balance = balance + 1 WHERE form = 'roll'", "balance reads"),
        ("UPDATE piece SET held = NULL WHERE form = 'roll'", "held reads None"),
        ("UPDATE piece SET last_kind = 'cut' WHERE form = 'roll'", "its last act"),
        ("UPDATE piece SET lot = 'L-205' WHERE form = 'roll'", "lot reads 'L-205'"),
    ],
)
def test_what_was_done_is_said(station: Station, statement: str, says: str) -> None:
    """On both engines, in a few words a person can use."""
    roll = _a_busy_morning(station.book)
    _unguard(station.book)
    with station.book.transaction() as connection:
        connection.execute(text(statement))

    findings = verify(station.book)

    assert any(finding.piece == roll and says in finding.text for finding in findings), findings


@pytest.mark.parametrize(
    ("statement", "says"),
    [
        (
            "DELETE FROM move WHERE piece_id = (SELECT id FROM piece WHERE form = 'offcut')",
            "journal",
        ),
        ("UPDATE job SET closed = true", "is not open or closed"),
        ("DELETE FROM move WHERE act_id = (SELECT max(id) FROM act)", "has no moves"),
    ],
)
def test_what_belongs_together_and_is_not_is_said(
    station: Station, statement: str, says: str
) -> None:
    """A piece without a journal, a job closed by nobody, an act that did nothing."""
    _a_busy_morning(station.book)
    _unguard(station.book)
    with station.book.transaction() as connection:
        connection.execute(text(statement))

    assert any(says in finding.text for finding in verify(station.book))


def _flipped(whole: bytes, number: int) -> tuple[bytes, int]:
    """The file with one bit of one byte turned, at the same place in every run."""
    digest = sha256(f"flip {number}".encode()).digest()
    place = int.from_bytes(digest[:4]) % len(whole)
    turned = whole[place] ^ (1 << digest[4] % 8)
    return whole[:place] + bytes([turned]) + whole[place + 1 :], place


@pytest.fixture(scope="module")
def at_rest(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book in one file, with nothing beside it."""
    path = tmp_path_factory.mktemp("rest") / "book.db"
    with closing(create_book(str(path))) as book:
        _a_busy_morning(book)
    return path


@pytest.mark.parametrize("part", range(10))
def test_one_byte_changed_in_the_file_is_found_or_harmless(
    at_rest: Path, tmp_path: Path, part: int
) -> None:
    """No act, move or piece reads otherwise than it was written without verify saying so."""
    kept = _journal(at_rest)
    whole = at_rest.read_bytes()
    path = tmp_path / "copy.db"
    unnoticed = []
    for number in range(part * FLIPS // 10, (part + 1) * FLIPS // 10):
        changed, place = _flipped(whole, number)
        path.write_bytes(changed)
        if not _is_noticed(path) and _journal(path) != kept:
            unnoticed.append(place)

    assert unnoticed == []


def _is_noticed(path: Path) -> bool:
    try:
        with closing(open_book(str(path))) as book:
            return bool(verify(book))
    except Refusal as refusal:
        return refusal.exit is Exit.NO_BOOK


def _journal(path: Path) -> list[list[tuple[Any, ...]]]:
    """What acts that moved something, moves and pieces say, as the program reads them."""
    moved = select(table_of(MoveRow).c.act_id)
    acts = select(table_of(ActRow)).where(table_of(ActRow).c.id.in_(moved))
    wanted = (acts, select(table_of(MoveRow)), select(table_of(PieceRow)))
    with closing(open_book(str(path))) as book, book.reading() as connection:
        return [[tuple(row) for row in connection.execute(one)] for one in wanted]


@pytest.mark.parametrize(
    ("statement", "says"),
    [
        ('UPDATE "order" SET closed = true', "is not open or closed as its acts say"),
        ("UPDATE \"order\" SET code = 'D0000011'", "bears a code whose check character is wrong"),
        ("DELETE FROM order_entry", "is an order of which nothing is said"),
        ("UPDATE order_entry SET value = '{\"1\": 9}' WHERE name = 'came'", "more of line 1 came"),
        ("UPDATE order_entry SET value = '{\"1\": 2}' WHERE name = 'came'", "brought fewer pieces"),
        (
            "UPDATE order_entry SET value = '{\"2\": 1}' WHERE name = 'came'",
            "brought a line it does",
        ),
    ],
)
def test_an_order_that_does_not_agree_with_its_acts_is_found(
    tmp_path: Path, statement: str, says: str
) -> None:
    """What is kept beside it, its code, and what it says came."""
    with closing(create_book(str(tmp_path / "book.db"))) as book:
        buyer = Buyer(book)
        buyer.material()
        buyer.arrive(buyer.ordered(), pieces=1)
        assert is_sound(book)
        _unguard(book)
        with book.transaction() as connection:
            connection.execute(text(statement))

        assert any(says in finding.text for finding in verify(book))
