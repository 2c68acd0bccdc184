"""Whatever is done in whatever order, reports say the same with what is settled and without."""

from collections.abc import Callable
from contextlib import closing, suppress
from datetime import datetime, timedelta
from pathlib import Path
from shutil import copyfile
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sqlalchemy import text

from stockroom.books.opening import Book, create_book, open_book
from stockroom.errors import Refusal
from stockroom.units import MM, M
from stockroom.work.look import rack
from stockroom.work.settling import keep_settled
from tests.conftest import NOW
from tests.settled import agrees
from tests.weather import HOUR_S, Weather

DAY_S = 24 * HOUR_S
PLACES = {"A1": "north", "B1": "south", "van 2": "road"}
PIECE, DAYS, WARMTH = st.integers(0, 4), st.integers(0, 40), st.integers(-5, 45)
STEP = st.one_of(
    st.tuples(st.just("wait"), PIECE, st.integers(1, 12)),
    st.tuples(
        st.sampled_from(["put A1", "put B1", "out", "in", "cut", "undo", "rewind"]), PIECE, DAYS
    ),
    st.tuples(st.sampled_from(["door", "window", "door", "window"]), DAYS, WARMTH),
    st.tuples(st.sampled_from(["assume", "correct", "place", "wall", "settle"]), DAYS, WARMTH),
)
Step = tuple[str, int, int]


class _Shop(Weather):
    """Two rolls in two of three places, and a sensor in each of two zones."""

    def __init__(self, book: Book, now: datetime = NOW) -> None:
        super().__init__(book, now)
        self.pieces = [one.code for one in rack(book, now=now).pieces]

    def furnish(self) -> "_Shop":
        """Everything is there, for some weeks."""
        for name, zone in PLACES.items():
            self.place(name, zone)
        self.sensor("door", "north")
        self.sensor("window", "south")
        self.roll(place="A1")
        self.roll(place="B1")
        return self

    def do(self, step: Step) -> None:
        """One thing; what cannot be done now is left."""
        kind, number, value = step
        piece = self.pieces[number % len(self.pieces)]
        acts: dict[str, Callable[[], object]] = {
            "wait": lambda: self._wait(value),
            "put A1": lambda: self.put(piece, "A1"),
            "put B1": lambda: self.put(piece, "B1"),
            "out": lambda: self.go_out(piece, ("van 2", "harbour")[value % 2]),
            "in": lambda: self.come_in(piece),
            "cut": lambda: self._cut(piece),
            "undo": lambda: self.undo(piece),
            "rewind": lambda: self.rewind(piece),
            "assume": lambda: self.assume("north", float(value)),
            "correct": lambda: self._correct(number, value / 10),
            "place": lambda: self.place("harbour", zone="south"),
            "wall": lambda: self._wall(number, ("north", "south", "road", "")[value % 4]),
            "settle": lambda: self._settle(value),
        }
        with suppress(Refusal):
            acts.get(kind, lambda: self._read(kind, number, value))()

    def _wait(self, days: int) -> None:
        self.wait(days=days)
        keep_settled(self.book, now=self.now)

    def _settle(self, hours: int) -> None:
        """Settled anew, by a station whose clock is behind or that began some time ago."""
        with self.book.transaction() as connection:
            connection.execute(text("DELETE FROM settled"))
        keep_settled(self.book, now=self.now - timedelta(hours=max(hours, 0)))

    def _wall(self, day: int, zone: str) -> None:
        self.put_in_zone("A1", zone, at=min(NOW + timedelta(days=day), self.now))

    def _cut(self, piece: str) -> None:
        done = self.cut(piece, 1 * M, offcuts=((500 * MM, 1 * M),))
        self.pieces += [one.code for one in done.offcuts]

    def _correct(self, day: int, offset_c: float) -> None:
        at = min(NOW + timedelta(days=day), self.now)
        self.move("window", offset_c=offset_c, at=at)

    def _read(self, sensor: str, day: int, celsius: int) -> None:
        """A day of readings, some hours apart, the last one after a gap; not ahead of the clock."""
        first_s = int(NOW.timestamp()) + day * DAY_S
        seconds = [first_s + hour * HOUR_S for hour in (0, 3, 4, 9, 13, 14, 23)]
        known = [at_s for at_s in seconds if at_s <= self.now.timestamp()]
        self.write(((at_s, celsius + at_s % 7 / 10, 45) for at_s in known), sensor)


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A furnished book, to be copied."""
    folder = tmp_path_factory.mktemp("bare")
    with closing(create_book(str(folder / "book.db"))) as book:
        _Shop(book).furnish().book.copy_to(folder / "copy.db")
    return folder / "copy.db"


@settings(deadline=None)
@given(st.lists(STEP, min_size=3, max_size=25))
def test_reports_say_the_same_with_what_is_settled(bare: Path, steps: list[Step]) -> None:
    """Moves, vans, offcuts, undos; readings late or in time; sensors and rooms that change."""
    with TemporaryDirectory() as folder:
        copyfile(bare, Path(folder) / "book.db")
        with closing(open_book(str(Path(folder) / "book.db"))) as book:
            shop = _Shop(book, NOW + timedelta(days=20))
            for step in steps:
                shop.do(step)
            assert agrees(book, shop.now)
