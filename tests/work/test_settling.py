"""What is settled says what its climates say, whatever is written afterwards; or it is dropped."""

from collections.abc import Collection
from concurrent.futures import ThreadPoolExecutor
from contextlib import AbstractContextManager, closing
from datetime import timedelta
from typing import Any

import pytest
from sqlalchemy import text

from stockroom.books import course
from stockroom.books.opening import Book, create_book
from stockroom.books.opening import book_url as url_of
from stockroom.books.parts import forget
from stockroom.units import MM, M
from stockroom.work import settling
from stockroom.work.look import on_hand
from stockroom.work.safekeeping import verify
from stockroom.work.settling import keep_settled
from stockroom.work.summing import sum_again
from tests.conftest import NOW
from tests.settled import agrees, settled_codes
from tests.weather import HOUR_S, NOW_S, Weather

DAY_S = 24 * HOUR_S


class Store(Weather):
    """Somebody who looks after two zones, and after what stands in them."""

    def __init__(self, book: Book) -> None:
        super().__init__(book)
        self.sensor("door", "north")
        self.sensor("window", "south")
        self.north, self.south = self.place("A1", "north"), self.place("B1", "south")
        self.stays = self.roll(place=self.north)
        self.moves = self.roll(place=self.north)
        self.wait(days=10)
        self.put(self.moves, self.south)
        self.rewind(self.stays)
        self.wait(days=20)
        self.climate(0, 30)

    def climate(
        self,
        first_day: int,
        last_day: int,
        celsius: float = 26.0,
        sensors: Collection[str] = ("door", "window"),
    ) -> None:
        """Every two hours a reading of both sensors; the second one is warmer, and dry."""
        for sensor in sensors:
            more, rh_pct = (0, 50) if sensor == "door" else (6, 30)
            seconds = range(NOW_S + first_day * DAY_S, NOW_S + last_day * DAY_S, 2 * HOUR_S)
            given = ((at_s, celsius + more + at_s % 11 / 10, rh_pct) for at_s in seconds)
            self.write(given, sensor)

    def forget(self) -> None:
        """Whatever is settled is dropped."""
        with self.book.transaction() as connection:
            connection.execute(text("DELETE FROM settled"))

    @property
    def settled(self) -> set[str]:
        """Of which pieces something is settled now."""
        return settled_codes(self.book, self.now)

    @property
    def agrees(self) -> bool:
        """Whether reports say the same with it and without, now and on other days."""
        days = (None, self.now.date() - timedelta(days=8), self.now.date() + timedelta(days=40))
        return all(agrees(self.book, self.now, day) for day in days)


@pytest.fixture
def _small_parts(monkeypatch: pytest.MonkeyPatch) -> None:
    """Parts of a few readings, so that thirty days make some."""
    monkeypatch.setattr(course, "PART", 50)


@pytest.fixture
def store(book: Book) -> Store:
    """Two zones, two rolls of which one was moved; thirty days of readings, settled as they came."""
    return Store(book)


def test_reports_say_the_same_with_what_is_settled(store: Store) -> None:
    """Today, on a day gone by, and on a day to come."""
    assert store.settled == {store.stays, store.moves}
    assert store.agrees
    assert verify(store.book, sums=True) == []


def test_new_readings_change_nothing_of_it(store: Store) -> None:
    """For a week nothing is settled again; then it is, as readings are written."""
    number = _numbers(store.book)
    store.wait(days=5)
    store.climate(30, 35, 33.0)
    assert _numbers(store.book) == number
    assert store.settled == {store.stays, store.moves}
    assert store.agrees

    store.wait(days=3)
    store.climate(35, 38)
    assert _numbers(store.book) != number
    assert len(_numbers(store.book)) == 1
    assert store.settled == {store.stays, store.moves}
    assert store.agrees


def test_a_late_reading_drops_it(store: Store) -> None:
    """Also one between the last that counts and the next; whoever writes it settles anew."""
    number = _numbers(store.book)
    last_s = int(store.now.timestamp()) - settling.YOUNG_S
    store.write([(last_s + 60, 60.0)])
    assert _numbers(store.book) == number, "no line that counts ends so late"
    assert store.agrees

    store.write([(last_s - 3 * HOUR_S, 60.0)])
    assert number < _numbers(store.book)
    assert store.settled == {store.stays, store.moves}
    assert store.agrees


def test_loggers_are_read_out_one_after_the_other(store: Store) -> None:
    """A week is settled when the last of them was, and not once for each; so none of them drops it."""
    number = _numbers(store.book)
    store.wait(days=8)
    store.climate(30, 38, sensors=("door",))
    assert _numbers(store.book) == number
    store.climate(30, 38, sensors=("window",))
    assert _numbers(store.book) == [number[0] + 1]
    assert store.settled == {store.stays, store.moves}
    assert store.agrees

    for week in range(38, 94, 8):  # and one that is never read out again holds nobody up
        store.wait(days=8)
        store.climate(week, week + 8, sensors=("door",))
    with on_hand(store.book, now=store.now, today=None) as (_, climates, _):
        assert climates.settled.until_s > NOW_S + 60 * DAY_S
    assert store.agrees


def test_a_piece_that_moves_is_left_out(store: Store) -> None:
    """By hand, by a van, by taking that back; what is cut off goes on as its roll did."""
    store.put(store.stays, store.south)
    assert store.settled == {store.moves}
    store.undo(store.stays)
    assert store.settled == {store.moves}
    store.go_out(store.moves)
    assert store.settled == set()
    store.wait(days=6)
    assert store.agrees

    offcut = store.cut(store.stays, 2 * M, offcuts=((500 * MM, 2 * M),)).offcuts[0].code
    store.wait(days=6)
    store.climate(30, 42)
    assert store.settled == {store.stays, store.moves, offcut}
    assert store.agrees


def test_a_piece_of_which_an_old_move_is_undone_is_left_out(store: Store) -> None:
    """The undo says nothing of a place; it never stood where it was put twenty days ago."""
    store.undo(store.moves)

    assert store.settled == {store.stays}
    assert store.agrees
    assert verify(store.book, sums=True) == []


def test_acts_of_a_time_still_to_come_are_not_settled(store: Store) -> None:
    """Of a station whose clock is ahead, or done while somebody imports: put, or undone."""
    now = store.now
    store.wait(minutes=1)
    store.put(store.stays, store.south)
    store.undo(store.moves)
    store.forget()
    keep_settled(store.book, now=now)

    assert store.settled == set()
    assert store.agrees
    store.wait(days=6)
    store.climate(30, 36)
    assert store.agrees


def test_a_cut_or_a_count_leaves_it_as_it_is(store: Store) -> None:
    """Nothing of that is a question of climate."""
    store.cut(store.stays, 2 * M)
    store.count(store.moves, length_nm=29 * M)

    assert store.settled == {store.stays, store.moves}
    assert store.agrees


def test_a_roll_that_was_moved_lately_is_not_settled(store: Store) -> None:
    """It may come from a cold van, and wait for its dew; for three days that is asked."""
    store.write([(NOW_S + 30 * DAY_S, 3.0, 60.0)], "window")
    store.wait(minutes=5)
    store.put(store.moves, store.north)
    store.wait(hours=60)
    store.forget()
    store.climate(31, 33)

    assert store.settled == {store.stays}
    with on_hand(store.book, now=store.now, today=None) as (_, climates, _):
        assert len(climates.lately(store.moves)) == 2
        assert climates.lately(store.stays) == ()
    assert store.agrees


def test_a_day_gone_by_does_not_know_what_was_undone_since(store: Store) -> None:
    """What is settled knows it; a report of that day works it out."""
    store.undo(store.moves)
    store.forget()
    store.climate(30, 31)
    assert store.settled == {store.stays, store.moves}

    store.wait(days=2)
    assert agrees(store.book, store.now, (store.now - timedelta(days=3)).date())


@pytest.mark.parametrize(
    "change",
    [
        "climate.gap 4h",
        "climate.hot 28C",
        "climate.assumed 31C",
        "climate.rh-low 20",
        "zone south",
        "zone of a place",
        "a place of that name",
        "a sensor moved",
        "a sensor corrected",
    ],
)
def test_whatever_else_it_rests_on_makes_it_void(store: Store, change: str) -> None:
    """Limits, gaps, what is assumed; which zone a place lies in, and which a sensor speaks for."""
    store.go_out(store.stays, "harbour")
    store.wait(days=14)
    store.climate(30, 44)
    assert store.settled == {store.stays, store.moves}

    match change.split():
        case [name, value] if "." in name:
            store.set_value(name, value)
        case "zone", zone:
            store.assume(zone, 11.0)
        case "zone", *_:
            store.put_in_zone("B1", "north", at=NOW + timedelta(days=15))
        case "a", "place", *_:
            store.place("harbour", zone="south")
        case "a", "sensor", "moved":
            store.move("window", zone="attic", at=NOW + timedelta(days=3))
        case _:
            store.move("window", offset_c=-4.0, at=NOW + timedelta(days=3))

    assert store.agrees
    assert verify(store.book, sums=True) == []


def test_what_comes_while_it_is_worked_out_is_not_lost(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A late reading of another station drops the number that was drawn, and settles with its own."""

    def slowly(*given: Any, **more: Any) -> AbstractContextManager[Any]:
        monkeypatch.undo()
        store.write([(NOW_S + 3 * DAY_S + 600, 60.0)])
        written.extend(_numbers(store.book))
        return on_hand(*given, **more)

    store.forget()
    written: list[int] = []
    monkeypatch.setattr(settling, "on_hand", slowly)
    keep_settled(store.book, now=store.now)

    assert len(written) == 1
    assert _numbers(store.book) == written
    assert store.agrees


def test_a_move_with_a_lower_number_that_comes_late_makes_it_void(store: Store) -> None:
    """On PostgreSQL a lower number may be committed after a higher one."""
    with store.book.transaction() as connection:
        connection.execute(text("UPDATE settled SET moves = moves - 1"))

    assert store.settled == set()
    assert store.agrees


def test_only_one_works_it_out(store: Store) -> None:
    """Who began an hour ago is taken to be gone."""
    with store.book.transaction() as connection:
        connection.execute(text("UPDATE settled SET content = :none"), {"none": b""})

    keep_settled(store.book, now=store.now)
    assert store.settled == set()
    store.wait(hours=1)
    keep_settled(store.book, now=store.now)
    assert store.settled == {store.stays, store.moves}


def test_a_large_shop_settles_again_only_after_a_rest(store: Store) -> None:
    """Whatever made it void, late readings or places; of 50,000 pieces an hour, of a hundred 7 s."""
    with store.book.transaction() as connection:
        connection.execute(text("UPDATE settled SET pieces = 50000"))
    for hour in range(3):
        store.write([(NOW_S + 3 * DAY_S + hour, 60.0)])
    store.place("C1")
    assert store.settled == set()
    assert store.agrees

    store.wait(hours=1)
    keep_settled(store.book, now=store.now)
    assert store.settled == {store.stays, store.moves}


def test_what_holds_no_longer_is_settled_before_the_week_is_over(store: Store) -> None:
    """As where a lower number came late, the clock was set back, or a whole bay was put elsewhere."""
    number = _numbers(store.book)
    keep_settled(store.book, now=store.now - timedelta(days=1))
    assert number < (number := _numbers(store.book))

    with store.book.transaction() as connection:
        connection.execute(text("UPDATE settled SET moves = moves - 1"))
    keep_settled(store.book, now=store.now)
    assert number < (number := _numbers(store.book))

    for code in (store.stays, store.moves):
        store.put(code, "A1" if code == store.moves else "B1")
    keep_settled(store.book, now=store.now)
    assert number < _numbers(store.book)


def test_a_zone_that_is_settled_wrongly_is_found_too(store: Store) -> None:
    """What came after is added of the zone a piece is in."""
    with store.book.transaction() as connection:
        kept = bytes(connection.execute(text("SELECT content FROM settled")).scalar_one())
        other = kept.replace(b'["north", "south"]', b'["south", "north"]')
        assert other != kept
        connection.execute(text("UPDATE settled SET content = :other"), {"other": other})

    [found] = verify(store.book, sums=True)
    assert "of the storage of 2 pieces" in found.text


def test_what_is_settled_wrongly_is_found_where_sums_are_asked_for(store: Store) -> None:
    """Written past the program; made again, all is well."""
    with store.book.transaction() as connection:
        connection.execute(_WARMER)
        connection.execute(text("DELETE FROM course_part"))

    [found] = verify(store.book, sums=True)
    assert found.piece == min(store.stays, store.moves)
    assert found.text.startswith("what is settled of the storage of 2 pieces is not")
    sum_again(store.book, now=store.now)
    assert verify(store.book, sums=True) == []


_WARMER = text("INSERT INTO reading VALUES (1, :at_s, 60.0, 50.0)").bindparams(
    at_s=NOW_S + 3 * DAY_S + 600
)


@pytest.mark.parametrize(
    "book_url", [pytest.param("postgresql", marks=pytest.mark.postgresql)], indirect=True
)
@pytest.mark.usefixtures("_small_parts")
def test_two_who_write_late_readings_wait_for_each_other_and_never_in_a_ring(store: Store) -> None:
    """What both need is locked first: whoever waits for it holds nothing the other may want."""

    def late(zone: str) -> None:
        with store.book.transaction() as connection:
            forget(connection, {zone: NOW_S})

    with ThreadPoolExecutor(1) as other:
        with store.book.transaction() as connection:
            forget(connection, {"north": NOW_S})
            done = other.submit(late, "south")
            while not connection.execute(_WAITING).scalar_one():
                assert not done.done()
            forget(connection, {"south": NOW_S})
        done.result()

    assert store.settled == set()
    assert store.agrees


_WAITING = text(
    "SELECT count(*) FROM pg_locks WHERE NOT granted AND pg_backend_pid() = ANY(pg_blocking_pids(pid))"
)


def test_a_book_that_may_only_be_read_settles_nothing(book_url: str) -> None:
    """Nothing is refused, and nothing written; its reports look at what another settled."""
    with closing(create_book(book_url)) as book:
        store = Store(book)
        number = _numbers(book)
    with closing(Book(url_of(book_url), read_only=True)) as book:
        keep_settled(book, now=store.now + timedelta(days=30))
        assert _numbers(book) == number
        assert settled_codes(book, store.now) == {store.stays, store.moves}
        assert agrees(book, store.now)


def _numbers(book: Book) -> list[int]:
    """The numbers of what is settled, or being worked out."""
    with book.reading() as connection:
        return list(connection.execute(text("SELECT id FROM settled ORDER BY id")).scalars())
