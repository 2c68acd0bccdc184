"""Orders against a pencil: whatever is sent, comes, is taken back or cancelled, what is open is the same."""

from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from stockroom.books.orders import Stage
from stockroom.errors import Code
from stockroom.units import M
from stockroom.work.order_draft import Wanted
from stockroom.work.safekeeping import verify
from tests.builders import FILM, expected
from tests.engines import new_book
from tests.ordering import Buyer

COUNTS = st.integers(1, 4)
PLACES = st.integers(0, 40)


@dataclass(slots=True)
class Noted:
    """An order as a person with a pencil keeps it: what is to come of each of its two lines."""

    open: list[int]
    is_sent: bool = False
    is_cancelled: bool = False
    came: int = 0

    @property
    def stage(self) -> Stage:
        """How far it has come."""
        if self.is_cancelled:
            return Stage.CANCELLED
        if not self.is_sent:
            return Stage.DRAFT
        if not any(self.open):
            return Stage.RECEIVED
        return Stage.PART if self.came else Stage.SENT


@dataclass(slots=True)
class Delivery:
    """A roll of what came, of which order, line and how many."""

    roll: str
    order: str
    line: int
    pieces: int


class Office(RuleBasedStateMachine):
    """Somebody who orders, and changes her mind."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = TemporaryDirectory()
        self.book = new_book(Path(self.folder.name) / "book.db")
        self.buyer = Buyer(self.book)
        self.buyer.material()
        self.noted: dict[str, Noted] = {}
        self.deliveries: list[Delivery] = []

    def teardown(self) -> None:
        assert verify(self.book) == []
        self.book.close()
        self.folder.cleanup()

    def _one(self, place: int) -> str:
        return list(self.noted)[place % len(self.noted)]

    @rule(first=COUNTS, second=COUNTS)
    def draft(self, first: int, second: int) -> None:
        lines = (
            Wanted(material=FILM, pieces=pieces, length_nm=metres * M)
            for pieces, metres in ((first, 10), (second, 20))
        )
        self.noted[self.buyer.draft(*lines).code] = Noted([first, second])

    @precondition(lambda self: self.noted)
    @rule(place=PLACES)
    def send(self, place: int) -> None:
        code = self._one(place)
        with expected(Code.ORDER_SENT), expected(Code.NOT_COMING):
            self.buyer.send(code)
            assert self.noted[code].stage is Stage.DRAFT
            self.noted[code].is_sent = True

    @precondition(lambda self: self.noted)
    @rule(place=PLACES, line=st.integers(1, 2), pieces=COUNTS)
    def arrive(self, place: int, line: int, pieces: int) -> None:
        code = self._one(place)
        noted = self.noted[code]
        with expected(Code.TOO_MANY), expected(Code.NOT_COMING):
            codes = self.buyer.arrive(code, line, pieces=pieces).codes
            assert noted.stage in (Stage.SENT, Stage.PART)
            assert pieces <= noted.open[line - 1]
            noted.open[line - 1] -= pieces
            noted.came += 1
            self.deliveries.append(Delivery(codes[0], code, line, pieces))

    @precondition(lambda self: self.deliveries)
    @rule(place=PLACES)
    def take_back(self, place: int) -> None:
        gone = self.deliveries.pop(place % len(self.deliveries))
        self.buyer.undo(gone.roll)
        noted = self.noted[gone.order]
        noted.open[gone.line - 1] += gone.pieces
        noted.came -= 1

    @precondition(lambda self: self.noted)
    @rule(place=PLACES)
    def cancel(self, place: int) -> None:
        code = self._one(place)
        with expected(Code.NOT_COMING):
            self.buyer.cancel(code)
            self.noted[code].is_cancelled = True

    @invariant()
    def what_is_open_is_as_noted(self) -> None:
        for code, noted in self.noted.items():
            found = self.buyer.order(code)
            assert (found.stage, self.buyer.open(code)) == (noted.stage, noted.open)


TestOffice = Office.TestCase
TestOffice.settings = settings(max_examples=10, stateful_step_count=20, deadline=None)
