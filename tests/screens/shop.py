"""A small shop to look at: made once through the scripts, then copied for each test."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from stockroom.books.opening import Book, create_book
from stockroom.books.pen import writing
from stockroom.books.values import Act, ActDraft, Asked, MoveDraft
from stockroom.film.kinds import Kind
from stockroom.film.roll import Layer
from stockroom.labels.size import read_size
from stockroom.screens.app import StockroomApp, app_for
from stockroom.screens.station import Station
from stockroom.units import MM, M
from stockroom.work.look import Card, log, piece
from tests.builders import Station as Hands
from tests.conftest import NOW

FROSTED, URETHANE, CAST = "frosted 1524", "urethane clear 200", "white cast 1370"
_LAYERS = (Layer(50.0, 1390.0), Layer(25.0, 1390.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Codes:
    """What the labels of the shop say."""

    old_roll: str
    """6.4 m of frosted film, near its limit, in A1."""
    new_roll: str
    """25 m of the same film, in B2."""
    tested: str
    """11.2 m of cast film, past its limit."""
    stopped: str
    """9 m of urethane, past what its trial extended."""
    held: str
    printed: str
    """A print for the shelter."""
    offcut: str
    box: str
    shelter: str
    """A job for Friday."""
    clinic: str
    """A job for Monday."""
    closed: str
    place: str
    """B2."""


@dataclass(slots=True)
class Shop:
    """A copy of the shop on one disk, its codes, and a clock that moves when a test moves it."""

    book: Book
    codes: Codes
    labels: Path
    now: datetime = NOW

    def app(self, *, shows_money: bool = False) -> StockroomApp:
        """The screens at this shop's station."""
        station = Station(
            book=self.book,
            operator="Ida M.",
            now=lambda: self.now,
            label_size=read_size("62x29"),
            dpi=203,
            labels=self.labels,
            shows_money=shows_money,
        )
        return app_for(station)

    def wait(self, **how_long: float) -> None:
        """Let time pass."""
        self.now += timedelta(**how_long)

    def hand(self) -> Hands:
        """Somebody else at the same book."""
        return Hands(self.book, self.now)

    def card(self, code: str) -> Card:
        """A piece as the book has it now."""
        return piece(self.book, code, now=self.now)

    def left_nm(self, code: str) -> int:
        """How much is left of a piece."""
        return self.card(code).judged.standing.state.balance

    def acts(self) -> tuple[Act, ...]:
        """All that was written, newest first."""
        return log(self.book, now=self.now)


def make(path: Path) -> Codes:
    """Make the shop in a new book, and close it."""
    with _opened(path) as book:
        return _filled(Hands(book, NOW - timedelta(days=2)))


@contextmanager
def _opened(path: Path) -> Iterator[Book]:
    book = create_book(str(path))
    try:
        yield book
    finally:
        book.close()


@contextmanager
def copied(made: Path, codes: Codes, into: Path) -> Iterator[Shop]:
    """A copy that a test may do anything to."""
    path = into / "book.db"
    shutil.copy(made, path)
    with _opened(path) as book:
        yield Shop(book, codes, labels=into / "labels")


def _filled(hands: Hands) -> Codes:
    # On a large core even the old roll keeps little of a curl.
    hands.material(FROSTED, width_nm=1_524 * MM, layers=_LAYERS, core_inside_nm=152_400_000)
    hands.material(URETHANE, Kind.PROTECTIVE_FILM, width_nm=1_524 * MM)
    hands.material(CAST, Kind.PRINT_VINYL, width_nm=1_370 * MM, limits={"shelf": "24mo"})
    a1, b2 = hands.place("A1", "North"), hands.place("B2", "South")
    shelter = hands.job("tram shelter 4", site="Mill Lane", on_day="2026-11-27")
    clinic = hands.job("clinic partition", site="Well Street", on_day="2026-11-30")
    closed = hands.job("library reading room")
    hands.close(closed)
    old_roll = hands.roll(
        material=FROSTED, length_nm=6_400 * MM, made="2024-12-10", lot="L-2291", place=a1
    )
    new_roll = hands.roll(material=FROSTED, length_nm=25 * M, made="2026-05-04", place=b2)
    tested = hands.roll(material=CAST, length_nm=11_200 * MM, made="2024-10-20", place=b2)
    stopped = hands.roll(material=URETHANE, length_nm=9 * M, made="2024-01-15")
    _trial(hands, stopped)
    held = hands.roll(material=URETHANE, length_nm=8 * M, made="2026-06-01")
    hands.hold(held, "dropped on its edge")
    printed = hands.roll(
        material=CAST,
        length_nm=1_900 * MM,
        made="2026-07-01",
        printed="2026-08-20",
        job=shelter,
        place=b2,
    )
    cut = hands.cut(new_roll, 2 * M, offcuts=((900 * MM, 2 * M),))
    return Codes(
        old_roll=old_roll,
        new_roll=new_roll,
        tested=tested,
        stopped=stopped,
        held=held,
        printed=printed,
        offcut=cut.offcuts[0].code,
        box=hands.box(100, made="2026-01-01"),
        shelter=shelter,
        clinic=clinic,
        closed=closed,
        place=b2,
    )


def _trial(hands: Hands, code: str) -> None:
    """A trial that was passed, and whose time is over."""
    asked = Asked(**hands.asked())
    sets, facts = {"shelf_passed": "2026-08-01"}, {"trial": "adhesion", "passed": True}
    move = MoveDraft(code=code, kind="trial", sets=sets, facts=facts)
    with writing(hands.book, asked, now=hands.now, pieces=[code]) as pen:
        pen.append(ActDraft(kind="trial", at=hands.now, moves=(move,)))
