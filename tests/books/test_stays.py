"""Which climate a piece shared, from when: its place's zone, its van's, its parent's before it."""

from datetime import datetime

import pytest

from stockroom.books import stays as module
from stockroom.books.catalog import Entry, add_zone, place_named
from stockroom.books.opening import Book
from stockroom.books.sensors import second_of
from stockroom.books.stays import Stay, Zones, stays, stays_of
from stockroom.units import MM, M
from tests.floor import Floor


@pytest.fixture
def floor(book: Book) -> Floor:
    """A station whose clock is the tests' own."""
    return Floor(book)


def _of(floor: Floor, code: str, until: datetime | None = None) -> tuple[Stay, ...]:
    """Where a piece stood, which is the same whether one is asked for or all are."""
    with floor.book.reading() as connection:
        found = stays_of(connection, code, until or floor.now, Zones(connection))
        assert stays(connection, until or floor.now, Zones(connection)).get(code, ()) == found
    return found


def _second(moment: datetime) -> int:
    return second_of(moment)


def test_a_piece_shares_the_zone_of_each_place_from_when_it_was_put_there(floor: Floor) -> None:
    """Two places of one zone are one stay."""
    north, near, south = floor.place("A1"), floor.place("A2"), floor.place("B1", zone="South")
    roll = floor.roll(place=north)
    received = floor.now
    floor.wait(days=2)
    floor.put(roll, near)
    moved = floor.wait(days=3)
    floor.put(roll, south)

    assert _of(floor, roll) == (
        Stay(_second(received), "north"),
        Stay(_second(moved), "south"),
    )
    assert _of(floor, roll, received) == (Stay(_second(received), "north"),)


def test_what_is_undone_never_was(floor: Floor) -> None:
    """A put that was a mistake ages nothing; on that day nobody knew yet."""
    north, south = floor.place("A1"), floor.place("B1", zone="south")
    roll = floor.roll(place=north)
    received = floor.now
    moved = floor.wait(days=1)
    floor.put(roll, south)
    floor.wait(days=1)
    floor.undo(roll)

    assert _of(floor, roll) == (Stay(_second(received), "north"),)
    assert _of(floor, roll, moved)[-1] == Stay(_second(moved), "south")


def test_what_is_away_shares_the_climate_of_its_van_or_of_nothing_known(floor: Floor) -> None:
    """A van that is a place has a zone; a site has none."""
    north = floor.place("A1")
    floor.place("Van 2", zone="road")
    roll = floor.roll(place=north)
    received = floor.now
    out = floor.wait(hours=2)
    floor.go_out(roll, "van  2")
    back = floor.wait(hours=6)
    floor.come_in(roll)
    site = floor.wait(hours=1)
    floor.go_out(roll, "harbour office")

    assert _of(floor, roll) == (
        Stay(_second(received), "north"),
        Stay(_second(out), "road"),
        Stay(_second(back), "north"),
        Stay(_second(site), None),
    )


def test_a_place_that_changes_its_zone_does_so_from_then_on(floor: Floor) -> None:
    """A wall is built between two bays."""
    north = floor.place("A1")
    roll = floor.roll(place=north)
    received = floor.now
    built = floor.wait(days=5)
    with floor.book.transaction() as connection:
        entry = Entry(name="zone", value="Corner", from_at=built, operator="I", why="a wall")
        place = place_named(connection, north, floor.now)
        add_zone(connection, place.id, entry, now=floor.now)
    floor.wait(days=1)

    assert _of(floor, roll) == (Stay(_second(received), "north"), Stay(_second(built), "corner"))


def test_an_offcut_stood_where_its_roll_did_until_it_was_cut(floor: Floor) -> None:
    """And what is cut from it has both before."""
    north, south = floor.place("A1"), floor.place("B1", zone="south")
    roll = floor.roll(place=north)
    received = floor.now
    floor.wait(days=1)
    offcut = floor.cut(roll, 4 * M, job=floor.job(), offcuts=((1_200 * MM, 4 * M),)).offcuts[0].code
    moved = floor.wait(days=1)
    floor.put(offcut, south)
    floor.wait(days=1)
    child = floor.cut(offcut, 1 * M, reason="sample").act.moves[-1].piece

    assert child != offcut
    for code in (offcut, child):
        zones = [(stay.zone, stay.since_s) for stay in _of(floor, code)]
        assert zones[0] == ("north", _second(received))
        assert ("south", _second(moved)) in zones
    with floor.book.reading() as connection:
        assert stays_of(connection, roll, floor.now, Zones(connection)) == (
            Stay(_second(received), "north"),
        )


def test_a_piece_that_stands_nowhere_shares_nothing(floor: Floor) -> None:
    """And one nobody knows has no stays."""
    roll = floor.roll()
    assert [stay.zone for stay in _of(floor, roll)] == [None]
    assert _of(floor, "R0099990") == ()


def test_the_moves_of_places_are_found_by_their_index(floor: Floor) -> None:
    """Among a million others."""
    if floor.book.url.get_backend_name() != "sqlite":
        return
    floor.roll()
    asked = module._MOVED.params(until=floor.now)
    with floor.book.reading() as connection:
        compiled = asked.compile(connection.engine)
        values = compiled.construct_params()
        given = tuple(str(values[name]) for name in compiled.positiontup or ())
        plan = connection.exec_driver_sql(f"EXPLAIN QUERY PLAN {compiled}", given).all()
    assert any("ix_move_of_place" in str(row) for row in plan), plan
