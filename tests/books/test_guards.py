"""History cannot be rewritten, not even by a person with a SQL prompt."""

from collections.abc import Callable

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from stockroom.books.guards import APPEND_ONLY
from stockroom.books.opening import Book
from stockroom.errors import Refusal
from stockroom.units import M
from stockroom.work.order_draft import DraftOrder, Wanted, draft_order
from stockroom.work.setup import SetValue, set_value
from tests.builders import Station, dump, is_sound
from tests.weather import Weather

SAME_ROW = {
    "act": "request",
    "move": "piece_id, seq",
    "setting": "id",
    "limit": "id",
    "place_zone": "id",
    "sensor_entry": "id",
    "zone_entry": "id",
    "job_entry": "id",
    "order_entry": "id",
    "reading": "sensor_id, at_s",
}
"""The columns by which a row of each guarded table would be taken for an old one."""


NUMBER = {table: "sensor_id" if table == "reading" else "id" for table in SAME_ROW}
"""The first column of each guarded table's key, which is 1 in its first row."""


@pytest.fixture
def written(book: Book) -> Station:
    """A book in which every guarded table holds something."""
    station = Weather(book)
    station.material(limits={"shelf": "24mo"})
    roll = station.roll(material="clear 50", place=station.place())
    station.cut(roll, 2 * M)
    station.undo(roll)
    request = SetValue(**station.asked(name="name", value="North Yard", why="moved"))
    set_value(request, book=station.book, now=station.now)
    station.sensor()
    station.read((0, 21.5, 48))
    station.assume("north", 22)
    station.panels(station.job(), (900, 2_100))
    wanted = Wanted(material="clear 50", pieces=2)
    draft_order(
        DraftOrder(**station.asked(supplier="Northlight Films", lines=(wanted,))),
        book=station.book,
        now=station.now,
    )
    return station


def _columns(station: Station, table: str) -> str:
    row = dump(station.book)[table][0]
    return ", ".join(f'"{name}"' for name in row if name != NUMBER[table])


def _is_refused(station: Station, statement: str) -> bool:
    before = dump(station.book)
    with pytest.raises(DBAPIError, match="append-only"), station.book.transaction() as connection:
        connection.execute(text(statement))
    assert dump(station.book) == before
    return True


def test_every_table_that_keeps_history_is_guarded(written: Station) -> None:
    """The tests below look at each of them, and none of them is empty."""
    held = dump(written.book)

    assert set(SAME_ROW) == set(APPEND_ONLY)
    assert all(held[table] for table in APPEND_ONLY)


@pytest.mark.parametrize("table", APPEND_ONLY)
def test_no_line_is_changed_or_deleted(written: Station, table: str) -> None:
    """One line or all of them, by value or by nothing at all."""
    number = NUMBER[table]

    assert _is_refused(written, f'UPDATE "{table}" SET {number} = {number} + 1000')
    assert _is_refused(written, f'UPDATE "{table}" SET {number} = {number} WHERE {number} = 1')
    assert _is_refused(written, f'DELETE FROM "{table}"')
    assert _is_refused(written, f'DELETE FROM "{table}" WHERE {number} = 1')
    assert is_sound(written.book)


@pytest.mark.parametrize("book_url", ["sqlite"], indirect=True)
@pytest.mark.parametrize("table", APPEND_ONLY)
def test_no_line_is_written_over_another(written: Station, table: str) -> None:
    """OR REPLACE deletes without a DELETE, and an upsert updates without an UPDATE."""
    number, columns = NUMBER[table], f"{NUMBER[table]}, {_columns(written, table)}"
    same = SAME_ROW[table] if table == "reading" else "id"
    old = f'SELECT {columns} FROM "{table}" WHERE {number} = 1'

    assert _is_refused(written, f'INSERT OR REPLACE INTO "{table}" ({columns}) {old}')
    assert _is_refused(written, f'REPLACE INTO "{table}" ({columns}) {old}')
    assert _is_refused(written, f'UPDATE OR REPLACE "{table}" SET {number} = 1 WHERE {number} = 1')
    assert _is_refused(written, f'INSERT OR IGNORE INTO "{table}" ({columns}) {old}')
    assert _is_refused(
        written,
        f'INSERT INTO "{table}" ({columns}) SELECT * FROM ({old}) WHERE true '
        f"ON CONFLICT ({same}) DO UPDATE SET {number} = 1",
    )


@pytest.mark.parametrize("book_url", ["sqlite"], indirect=True)
@pytest.mark.parametrize("table", ["act", "move"])
def test_no_line_takes_the_place_of_another_under_a_new_number(
    written: Station, table: str
) -> None:
    """A second line with the same request, or the same place in a piece's journal, is refused."""
    columns = _columns(written, table)

    assert _is_refused(
        written,
        f'INSERT OR REPLACE INTO "{table}" (id, {columns}) '
        f'SELECT 1000, {columns} FROM "{table}" WHERE id = 1',
    )


@pytest.mark.parametrize("book_url", ["postgresql"], indirect=True)
@pytest.mark.parametrize("table", APPEND_ONLY)
def test_no_table_is_emptied_or_written_over(written: Station, table: str) -> None:
    """TRUNCATE fires no trigger of a row, and an upsert is an update in disguise."""
    number, columns = NUMBER[table], f"{NUMBER[table]}, {_columns(written, table)}"

    assert _is_refused(written, f'TRUNCATE "{table}" CASCADE')
    assert _is_refused(
        written,
        f'INSERT INTO "{table}" ({columns}) SELECT {columns} FROM "{table}" WHERE {number} = 1 '
        f"ON CONFLICT ({SAME_ROW[table]}) DO UPDATE SET {number} = 1000",
    )
    assert _is_refused(
        written,
        f'MERGE INTO "{table}" AS old USING (SELECT 1 AS id) AS new ON old.{number} = new.id '
        "WHEN MATCHED THEN DELETE",
    )


@pytest.mark.parametrize("book_url", ["postgresql"], indirect=True)
@pytest.mark.parametrize("table", ["piece", "material", "job", "place", "sensor"])
def test_emptying_what_history_points_to_is_refused_too(written: Station, table: str) -> None:
    """A cascade would take the journal with it."""
    assert _is_refused(written, f"TRUNCATE {table} CASCADE")


def _broken(station: Station, statement: str) -> str:
    """What the database says to a statement that breaks one of its rules."""
    errors = (DBAPIError, Refusal)
    with pytest.raises(errors) as caught, station.book.transaction() as connection:
        connection.execute(text(statement))
    return f"{caught.value} {caught.value.__cause__}".lower()


@pytest.mark.parametrize(
    "statement",
    [
        "DELETE FROM piece",
        "DELETE FROM material",
        "UPDATE piece SET material_id = 999",
        "UPDATE piece SET balance = -1",
        "UPDATE piece SET code = 'R000002J'",
    ],
)
def test_the_database_holds_its_other_rules_too(written: Station, statement: str) -> None:
    """What the journal speaks of stays there, codes are unique, and nothing is less than nothing."""
    written.rolls(pieces=2)

    said = _broken(written, statement)

    assert any(word in said for word in ("foreign key", "check constraint", "unique"))


def test_a_new_line_is_welcome(written: Station) -> None:
    """The guards stand in the way of nothing that only adds."""
    before: Callable[[], int] = lambda: len(dump(written.book)["move"])  # noqa: E731
    held = before()

    written.roll()

    assert before() == held + 1
