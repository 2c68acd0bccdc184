"""Where a piece stood, against a plain dictionary: puts, vans, walls between bays, undos."""

from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import timedelta
from pathlib import Path
from shutil import copyfile
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.books.catalog import Entry, add_zone, name_key, place_named
from stockroom.books.opening import create_book, open_book
from stockroom.books.sensors import second_of
from stockroom.books.stays import stays, stays_of
from stockroom.units import M
from tests.floor import Floor

PLACES = {"A1": "North", "B1": "South", "van 2": "road"}
ZONES = ["North", "attic", ""]
STEPS = st.lists(
    st.one_of(
        st.tuples(st.just("put"), st.sampled_from(["A1", "B1"])),
        st.tuples(st.just("out"), st.sampled_from(["van 2", "Van  2", "harbour"])),
        st.tuples(st.just("in"), st.just("")),
        st.tuples(
            st.just("wall"), st.tuples(st.sampled_from(list(PLACES)), st.sampled_from(ZONES))
        ),
        st.tuples(st.just("undo"), st.just("")),
        st.tuples(st.just("mark"), st.just("")),
    ),
    max_size=12,
)


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book with three places and a roll in the first, to be copied."""
    folder = tmp_path_factory.mktemp("bare")
    with closing(create_book(str(folder / "book.db"))) as book:
        floor = Floor(book)
        for name, zone in PLACES.items():
            floor.place(name, zone)
        floor.roll(place="A1")
        book.copy_to(folder / "copy.db")
    return folder / "copy.db"


@contextmanager
def _floor(bare: Path) -> Iterator[Floor]:
    with TemporaryDirectory() as folder:
        path = copyfile(bare, Path(folder) / "book.db")
        with closing(open_book(str(path))) as book:
            yield Floor(book)


class _Slow:
    """What is known of one roll, hour by hour, told the slow way."""

    def __init__(self) -> None:
        self.acts: list[tuple[int, str, str]] = []
        self.zones: list[tuple[int, str, str]] = [(0, name, zone) for name, zone in PLACES.items()]

    @property
    def is_out(self) -> bool:
        """Whether the roll is away now."""
        return [kind for _, kind, _ in self.acts if kind in ("out", "in")][-1:] == ["out"]

    def zone_at(self, hour: int) -> str | None:
        """The key of the zone whose climate the roll shares at an hour."""
        place, away = "A1", ""
        for at, kind, value in self.acts:
            if at <= hour and kind == "put":
                place = value
            if at <= hour and kind in ("out", "in"):
                away = value
        there = name_key(away or place)
        lay = [zone for at, name, zone in self.zones if at <= hour and name_key(name) == there]
        return (name_key(lay[-1]) or None) if lay else None


def _do(floor: Floor, slow: _Slow, hour: int, step: tuple[str, object]) -> None:
    roll = "R000002J"
    match step:
        case ("put", str(place)) if not slow.is_out:
            floor.put(roll, place)
            slow.acts.append((hour, "put", place))
        case ("out", str(where)) if not slow.is_out:
            floor.go_out(roll, where)
            slow.acts.append((hour, "out", where))
        case ("in", _) if slow.is_out:
            floor.come_in(roll)
            slow.acts.append((hour, "in", ""))
        case ("mark", _) if not slow.is_out:
            floor.flaw(roll, 1 * M)
            slow.acts.append((hour, "mark", ""))
        case ("undo", _) if slow.acts:
            floor.undo(roll)
            slow.acts.pop()
        case ("wall", (str(name), str(zone))):
            with floor.book.transaction() as connection:
                place_id = place_named(connection, name, floor.now).id
                entry = Entry(name="zone", value=zone, from_at=floor.now, operator="I", why="")
                add_zone(connection, place_id, entry, now=floor.now)
            slow.zones.append((hour, name, zone))
        case _:
            pass


@settings(deadline=None)
@given(STEPS)
def test_a_piece_shared_the_zones_a_dictionary_says(
    bare: Path, steps: list[tuple[str, object]]
) -> None:
    """Asked hour by hour; an undone act never was, a changed zone holds from then on."""
    with _floor(bare) as floor:
        begins, slow = floor.now, _Slow()
        for hour, step in enumerate(steps, start=1):
            floor.wait(hours=1)
            _do(floor, slow, hour, step)
        with floor.book.reading() as connection:
            found = stays_of(connection, "R000002J", floor.now)
            assert stays(connection, floor.now)["R000002J"] == found

        for hour in range(-1, len(steps) + 1):
            at_s = second_of(begins + timedelta(hours=hour))
            last = [stay.zone for stay in found if stay.since_s <= at_s][-1:]
            assert last == ([] if hour < 0 else [slow.zone_at(hour)])
