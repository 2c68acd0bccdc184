"""A shop to test in: a station at a book, which fills in what a test is not about."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any
from uuid import uuid4

import pytest
from sqlalchemy import select

from stockroom.books.climate_tables import all_tables
from stockroom.books.fold import State
from stockroom.books.job_entries import JobPanel
from stockroom.books.opening import Book
from stockroom.books.pen import writing
from stockroom.books.pieces import standing
from stockroom.books.values import Act, ActDraft, Asked, Job, MoveDraft, Piece
from stockroom.errors import Code, Refusal
from stockroom.film.kinds import Ink, Kind
from stockroom.units import MM, M
from stockroom.work.back import Back, CameBack, back
from stockroom.work.charge import Charge, Charged, charge
from stockroom.work.count import Count, Counted, Finish, count, finish
from stockroom.work.curl_trial import CurlTried, TryCurl, try_curl
from stockroom.work.cut import Cut, CutDone, cut
from stockroom.work.flaw import MarkFlaw, mark_flaw
from stockroom.work.jobs import CloseJob, OpenJob, close_or_reopen, open_job
from stockroom.work.keep import Discard, Hold, Put, Release, discard, hold, put, release
from stockroom.work.laminate import Laminate, LaminateDone, laminate
from stockroom.work.look import log, material
from stockroom.work.panels import Covering, SetPanels, set_panels
from stockroom.work.printing import Print, PrintDone, print_length
from stockroom.work.receive import Receive, receive
from stockroom.work.safekeeping import verify
from stockroom.work.setup import AddMaterial, AddPlace, add_a_material, add_a_place
from stockroom.work.take import Take, Taken, take
from stockroom.work.trial import TryAdhesion, try_adhesion
from stockroom.work.undo import Undo, Undone, undo
from stockroom.work.winding import LayFlat, Rewind, lay_flat, rewind
from tests.conftest import NOW

FILM, BLADES = "clear 50", "snap blades"
BLANK, CLEAR = "white cast", "gloss laminate"
WIDTH, LENGTH = 1_500 * MM, 30 * M
PRICE = 45_000
"""A roll of 45 square metres, so that a square metre costs 1000 minor units."""

ON_ONE_ENGINE = pytest.mark.parametrize("book_url", ["sqlite"], indirect=True)
"""For long tables about rules that never reach the database."""


@dataclass(slots=True)
class Station:
    """Somebody at work at a book, at a moment that only moves when a test moves it."""

    book: Book
    now: datetime = NOW

    def asked(self, **given: Any) -> dict[str, Any]:
        """What every request carries, and what a test says beside it."""
        return {"request": uuid4().hex, "operator": "Ida M."} | given

    def wait(self, **how_long: float) -> datetime:
        """Let time pass."""
        self.now += timedelta(**how_long)
        return self.now

    def material(self, name: str = FILM, kind: Kind = Kind.WINDOW_FILM, **given: Any) -> str:
        """A film 1.5 m wide, 50 µm on a 76 mm core, or what is said instead."""
        facts: dict[str, Any] = {}
        if kind.comes_in_rolls:
            facts = {
                "width_nm": WIDTH,
                "thickness_nm": 75_000,
                "core_inside_nm": 76_200_000,
                "core_wall_nm": 5 * MM,
            }
        request = AddMaterial(**self.asked(name=name, kind=kind, **facts | given))
        return add_a_material(request, book=self.book, now=self.now).name

    def place(self, name: str = "A1", zone: str = "north") -> str:
        """A place, by its code."""
        request = AddPlace(**self.asked(name=name, zone=zone))
        return add_a_place(request, book=self.book, now=self.now).code

    def job(self, name: str = "harbour office", **given: Any) -> str:
        """An open job, by its code."""
        request = OpenJob(**self.asked(name=name, **given))
        return open_job(request, book=self.book, now=self.now).code

    def panels(self, job: str, *sizes_mm: tuple[int, int], **given: Any) -> Covering:
        """What a job covers: panels P1, P2 … of so many mm across and along."""
        material = self.material_id(given.pop("material", FILM))
        panels = tuple(
            JobPanel(
                name=f"P{number}",
                width_nm=across * MM,
                height_nm=along * MM,
                material_id=material,
                **given,
            )
            for number, (across, along) in enumerate(sizes_mm, start=1)
        )
        request = SetPanels(**self.asked(job=job, panels=panels))
        return set_panels(request, book=self.book, now=self.now)

    def material_id(self, name: str = FILM) -> int:
        """The number of a material in the book."""
        return material(self.book, name, now=self.now).id

    def close(self, job: str, **given: Any) -> Job:
        """Close a job, or reopen it."""
        request = CloseJob(**self.asked(job=job, **given))
        return close_or_reopen(request, book=self.book, now=self.now)

    def roll(self, **given: Any) -> str:
        """A roll of 30 m that cost 450.00, or what is said instead."""
        return self.rolls(**given)[0]

    def rolls(self, **given: Any) -> tuple[str, ...]:
        """So many `pieces` in one delivery."""
        facts: dict[str, Any] = {"length_nm": LENGTH, "cost_minor": PRICE, "made": "2026-06-01"}
        return self._received(FILM, Kind.WINDOW_FILM, **facts | given)

    def blank(self, **given: Any) -> str:
        """A roll of 30 m of film to print on, that cost 450.00, or what is said instead."""
        facts: dict[str, Any] = {"length_nm": LENGTH, "cost_minor": PRICE, "made": "2026-06-01"}
        return self._received(BLANK, Kind.PRINT_VINYL, **facts | given)[0]

    def clear(self, **given: Any) -> str:
        """A roll of 30 m of laminate that cost 450.00, or what is said instead."""
        facts: dict[str, Any] = {"length_nm": LENGTH, "cost_minor": PRICE, "made": "2026-06-01"}
        return self._received(CLEAR, Kind.LAMINATE, **facts | given)[0]

    def box(self, number: int = 100, **given: Any) -> str:
        """A box of blades that cost 20.00, or what is said instead."""
        facts: dict[str, Any] = {"number": number, "cost_minor": 2_000}
        return self._received(BLADES, Kind.BLADE, **facts | given)[0]

    def _received(self, name: str, kind: Kind, **facts: Any) -> tuple[str, ...]:
        if "material" not in facts:
            facts["material"] = name
            with expected(Code.ALREADY_THERE):
                self.material(name, kind)
        request = Receive(**self.asked(**facts))
        return receive(request, book=self.book, now=self.now).codes

    def cut(self, piece: str, length_nm: int, **given: Any) -> CutDone:
        """Cut a length, as a sample unless something else is said."""
        purpose = {} if "job" in given else {"reason": "sample"}
        request = Cut(**self.asked(piece=piece, length_nm=length_nm, **purpose | given))
        return cut(request, book=self.book, now=self.now)

    def offcut(self, size: tuple[int, int] = (1_200 * MM, 2 * M), **given: Any) -> str:
        """An offcut of a new roll."""
        return self.cut(self.roll(**given), size[1], offcuts=(size,)).offcuts[0].code

    def take(self, piece: str, number: int, **given: Any) -> Taken:
        """Take goods, as a sample unless something else is said."""
        purpose = {} if "job" in given else {"reason": "sample"}
        request = Take(**self.asked(piece=piece, number=number, **purpose | given))
        return take(request, book=self.book, now=self.now)

    def back(self, piece: str, job: str, **given: Any) -> CameBack:
        """Take something back from a job."""
        request = Back(**self.asked(piece=piece, job=job, **given))
        return back(request, book=self.book, now=self.now)

    def count(self, piece: str, **given: Any) -> Counted:
        """Count a piece."""
        request = Count(**self.asked(piece=piece, **given))
        return count(request, book=self.book, now=self.now)

    def finish(self, piece: str, **given: Any) -> Counted:
        """Find a bare core."""
        return finish(Finish(**self.asked(piece=piece, **given)), book=self.book, now=self.now)

    def put(self, piece: str, place: str, **given: Any) -> Act:
        """Put a piece in a place."""
        request = Put(**self.asked(piece=piece, place=place, **given))
        return put(request, book=self.book, now=self.now)

    def hold(self, piece: str, why: str = "creased", **given: Any) -> Act:
        """Hold a piece."""
        request = Hold(**self.asked(piece=piece, why=why, **given))
        return hold(request, book=self.book, now=self.now)

    def release(self, piece: str, why: str = "only the outer wrap", **given: Any) -> Act:
        """Release a piece."""
        request = Release(**self.asked(piece=piece, why=why, **given))
        return release(request, book=self.book, now=self.now)

    def discard(self, piece: str, why: str = "crushed", **given: Any) -> Act:
        """Throw a piece away."""
        request = Discard(**self.asked(piece=piece, why=why, **given))
        return discard(request, book=self.book, now=self.now)

    def charge(self, piece: str, length_nm: int, job: str, at: datetime | None) -> Charged:
        """Charge a job late."""
        request = Charge(**self.asked(piece=piece, length_nm=length_nm, job=job, at=at))
        return charge(request, book=self.book, now=self.now)

    def undo(self, piece: str, **given: Any) -> Undone:
        """Take the last act of a piece back."""
        return undo(Undo(**self.asked(piece=piece, **given)), book=self.book, now=self.now)

    def print(self, piece: str, length_nm: int, **given: Any) -> PrintDone:
        """Print a length, in latex ink unless something else is said."""
        facts = self.asked(piece=piece, length_nm=length_nm, **{"ink": Ink.LATEX} | given)
        return print_length(Print(**facts), book=self.book, now=self.now)

    def laminate(self, piece: str, over: str, length_nm: int, **given: Any) -> LaminateDone:
        """Lay one film over another."""
        request = Laminate(**self.asked(piece=piece, over=over, length_nm=length_nm, **given))
        return laminate(request, book=self.book, now=self.now)

    def rewind(self, piece: str, **given: Any) -> Act:
        """Wind a piece again."""
        return rewind(Rewind(**self.asked(piece=piece, **given)), book=self.book, now=self.now)

    def lay_flat(self, piece: str, **given: Any) -> Act:
        """Lay a piece flat."""
        return lay_flat(LayFlat(**self.asked(piece=piece, **given)), book=self.book, now=self.now)

    def try_adhesion(self, piece: str, *, passed: bool, **given: Any) -> Act:
        """Enter an adhesion trial."""
        request = TryAdhesion(**self.asked(piece=piece, passed=passed, **given))
        return try_adhesion(request, book=self.book, now=self.now)

    def try_curl(self, piece: str, height_nm: int, **given: Any) -> CurlTried:
        """Enter a curl trial."""
        request = TryCurl(**self.asked(piece=piece, height_nm=height_nm, **given))
        return try_curl(request, book=self.book, now=self.now)

    def flaw(self, piece: str, at_nm: int, what: str = "splice", **given: Any) -> Act:
        """Mark a flaw."""
        request = MarkFlaw(**self.asked(piece=piece, at_nm=at_nm, what=what, **given))
        return mark_flaw(request, book=self.book, now=self.now)

    def trial(self, code: str, rule: str, until: str) -> Act:
        """A passed trial of a piece, written as the journal would have it."""
        asked = Asked(**self.asked())
        with writing(self.book, asked, now=self.now, pieces=[code]) as pen:
            move = MoveDraft(
                code=code,
                kind="trial",
                sets={f"{rule}_passed": until},
                facts={"trial": "adhesion" if rule == "shelf" else "curl", "passed": True},
            )
            return pen.append(ActDraft(kind="trial", at=self.now, moves=(move,)))

    def piece(self, code: str) -> Piece:
        """A piece as the books have it."""
        with self.book.reading() as connection:
            return standing(connection, code, self.now).piece

    def history(self, code: str) -> tuple[Act, ...]:
        """The acts of a piece, newest first."""
        return log(self.book, now=self.now, piece=code)

    def state(self, code: str) -> State:
        """The folded state of a piece."""
        return self.piece(code).state


def dump(book: Book) -> dict[str, list[Mapping[Any, Any]]]:
    """All that a book holds, table by table; but for what is settled, which whoever comes works out."""
    with book.reading() as connection:
        return {
            table.name: [
                dict(row)
                for row in connection.execute(select(table).order_by(*table.primary_key)).mappings()
            ]
            for table in all_tables()
            if table.name != "settled"
        }


def written(act: Act) -> list[tuple[object, ...]]:
    """The moves of an act: piece, kind, delta, balance; used, wasted, kept area; cost."""
    return [
        (
            move.piece,
            move.kind,
            move.delta,
            move.balance,
            move.used_mm2,
            move.wasted_mm2,
            move.kept_mm2,
            move.cost_minor,
        )
        for move in act.moves
    ]


@contextmanager
def expected(code: Code) -> Iterator[None]:
    """Go on where a script refused for this reason."""
    try:
        yield
    except Refusal as refusal:
        if refusal.code is not code:
            raise


@contextmanager
def refused(book: Book, code: Code, says: str = "") -> Iterator[None]:
    """What happens inside is refused with one line, and changes nothing in the book."""
    before = dump(book)
    with pytest.raises(Refusal) as caught:
        yield
    assert caught.value.code is code, caught.value.sentence
    assert says in caught.value.sentence
    assert len(caught.value.sentence.splitlines()) == 1
    assert dump(book) == before


def is_sound(book: Book) -> bool:
    """Whether verify finds nothing, or a failure that says what it found."""
    findings = verify(book)
    assert findings == []
    return True
