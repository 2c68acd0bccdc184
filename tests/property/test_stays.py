"""Where pieces stood, against a plain dictionary: puts, vans, offcuts, walls between bays, undos."""

from contextlib import closing
from dataclasses import dataclass
from datetime import timedelta
from itertools import product
from pathlib import Path
from shutil import copyfile
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stockroom.books.catalog import Entry, add_zone, name_key, place_named
from stockroom.books.opening import create_book, open_book
from stockroom.books.sensors import second_of
from stockroom.books.stays import Zones, stays, stays_of
from stockroom.errors import Code, Refusal
from stockroom.units import MM, M
from tests.conftest import postgresql_url
from tests.engines import an_own_schema, new_book
from tests.floor import Floor

PLACES = {"A1": "North", "B1": "South", "van 2": "road"}
ZONES = ["North", "attic", ""]
PIECE = st.integers(0, 5)
STEP = st.one_of(
    st.tuples(st.just("put"), PIECE, st.sampled_from(["A1", "B1"])),
    st.tuples(st.just("out"), PIECE, st.sampled_from(["van 2", "Van  2", "harbour"])),
    st.tuples(st.just("in"), PIECE, st.just("")),
    st.tuples(st.just("cut"), PIECE, st.just("")),
    st.tuples(st.just("undo"), PIECE, st.just("")),
    st.tuples(st.sampled_from(list(PLACES)), PIECE, st.sampled_from(ZONES)),
)
Step = tuple[str, int, str]
ROLL, LEAST, OFFCUT = "R000002J", 2 * M, (1_000 * MM, 4 * M)


@dataclass
class _Act:
    """One thing that was done: to a piece, and what came of it."""

    hour: int
    kind: str
    piece: str
    value: str = ""
    makes: tuple[str, ...] = ()

    def touches(self, piece: str) -> bool:
        """Whether a piece is in it."""
        return piece == self.piece or piece in self.makes


class _Slow:
    """What is known of a roll and all that is cut of it, hour by hour, told the slow way."""

    def __init__(self) -> None:
        self.acts = [_Act(0, "receive", "", makes=(ROLL,))]
        self.zones = [(0, name_key(name), name_key(zone)) for name, zone in PLACES.items()]

    @property
    def pieces(self) -> list[str]:
        """Every piece there ever was, but for those nobody ever cut."""
        return [piece for act in self.acts for piece in act.makes]

    def of(self, piece: str) -> list[_Act]:
        """What was done to a piece."""
        return [act for act in self.acts if act.touches(piece)]

    def is_out(self, piece: str) -> bool:
        """Whether a piece is away now."""
        moved = [act.kind for act in self.of(piece) if act.kind in ("out", "in")]
        return moved[-1:] == ["out"]

    def is_cut_up(self, piece: str) -> bool:
        """Whether an offcut has ended: a roll goes on."""
        own = [act for act in self.of(piece) if act.kind == "cut" and act.piece == piece]
        return piece != ROLL and bool(own)

    def can_undo(self, piece: str) -> bool:
        """Whether the last act of a piece is the last one of all it touched; a receipt is let be."""
        last = self.of(piece)[-1]
        return all(self.of(one)[-1] is last for one in (last.piece, *last.makes))

    def stood(self, piece: str, hour: int) -> str | None:
        """The name of the place or the van a piece was in; what is cut off stood with the rest."""
        born, *own = self.of(piece)
        place: str | None = "A1"
        if born.piece:
            place = self.stood(born.piece, min(hour, born.hour))
        if hour < born.hour:
            return place if born.piece else None
        away = ""
        for act in own:
            if act.hour <= hour and act.kind == "put":
                place = act.value
            if act.hour <= hour and act.kind in ("out", "in"):
                away = act.value
        return away or place

    def zone_at(self, piece: str, hour: int) -> str | None:
        """The key of the zone whose climate a piece shared at an hour."""
        there = name_key(self.stood(piece, hour) or "")
        lay = [zone for at, name, zone in self.zones if at <= hour and name == there]
        return (lay[-1] or None) if lay else None


def _do(floor: Floor, slow: _Slow, hour: int, step: Step) -> None:
    kind, number, value = step
    piece = slow.pieces[number % len(slow.pieces)]
    is_here = not slow.is_out(piece) and not slow.is_cut_up(piece)
    makes: tuple[str, ...] = ()
    match kind:
        case "put" if is_here:
            floor.put(piece, value)
        case "out" if is_here:
            floor.go_out(piece, value)
        case "in" if slow.is_out(piece):
            floor.come_in(piece)
        case "cut" if is_here and floor.state(piece).balance >= LEAST:
            makes = _cut(floor, piece)
        case "undo":
            _undo(floor, slow, piece)
            return
        case place if place in PLACES:
            _wall(floor, place, value)
            slow.zones.append((hour, name_key(place), name_key(value)))
            return
        case _:
            return
    slow.acts.append(_Act(hour, kind, piece, value, makes))


def _cut(floor: Floor, piece: str) -> tuple[str, ...]:
    """An offcut of the roll; or one of an offcut, and what stays of that."""
    size = OFFCUT if piece == ROLL else (500 * MM, 1 * M)
    return tuple(one.code for one in floor.cut(piece, size[1], offcuts=(size,)).offcuts)


def _undo(floor: Floor, slow: _Slow, piece: str) -> None:
    """The last act of a piece is taken back, whole, unless it is the receipt."""
    last = slow.of(piece)[-1]
    if last.kind == "receive":
        return
    if slow.can_undo(piece):
        floor.undo(piece)
        slow.acts.remove(last)
    else:
        with pytest.raises(Refusal) as refused:
            floor.undo(piece)
        assert refused.value.code is Code.LATER_ACT


def _wall(floor: Floor, place: str, zone: str) -> None:
    """A place lies in another zone from now on."""
    with floor.book.transaction() as connection:
        place_id = place_named(connection, place, floor.now).id
        entry = Entry(name="zone", value=zone, from_at=floor.now, operator="I", why="")
        add_zone(connection, place_id, entry, now=floor.now)


def _play(floor: Floor, steps: list[Step]) -> None:
    """Everything once, hour by hour; then each hour of each piece is asked for."""
    begins, slow = floor.now, _Slow()
    for hour, step in enumerate(steps, start=1):
        floor.wait(hours=1)
        _do(floor, slow, hour, step)
    with floor.book.reading() as connection:
        of_all = stays(connection, floor.now, Zones(connection))
        found = {
            piece: stays_of(connection, piece, floor.now, Zones(connection))
            for piece in slow.pieces
        }

    assert of_all == found
    for piece, hour in product(found, range(-1, len(steps) + 1)):
        at_s = second_of(begins + timedelta(hours=hour))
        last = [stay.zone for stay in found[piece] if stay.since_s <= at_s][-1:]
        assert last == ([] if hour < 0 else [slow.zone_at(piece, hour)])


def _furnished(floor: Floor) -> Floor:
    """Three places, and a roll in the first."""
    for name, zone in PLACES.items():
        floor.place(name, zone)
    floor.roll(place="A1")
    return floor


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A furnished book, to be copied."""
    folder = tmp_path_factory.mktemp("bare")
    with closing(create_book(str(folder / "book.db"))) as book:
        _furnished(Floor(book)).book.copy_to(folder / "copy.db")
    return folder / "copy.db"


@settings(deadline=None)
@given(st.lists(STEP, max_size=12))
def test_pieces_shared_the_zones_a_dictionary_says(bare: Path, steps: list[Step]) -> None:
    """An undone act never was, a changed zone holds from then on, an offcut stood with its roll."""
    with TemporaryDirectory() as folder:
        path = copyfile(bare, Path(folder) / "book.db")
        with closing(open_book(str(path))) as book:
            _play(Floor(book), steps)


@pytest.fixture(scope="module")
def server() -> str:
    """Where PostgreSQL is."""
    return postgresql_url()


@pytest.mark.postgresql
@settings(
    deadline=None, max_examples=settings.default.max_examples // 10 if settings.default else 5
)
@given(st.lists(STEP, min_size=6, max_size=12))
def test_pieces_on_postgresql_shared_the_zones_a_dictionary_says(
    server: str, steps: list[Step]
) -> None:
    """The same there, of less, for every step takes longer."""
    with an_own_schema(server) as url, closing(new_book(url)) as book:
        _play(_furnished(Floor(book)), steps)
