"""Goods in: a delivery is built line by line, kept as a draft, and received as one act.

A roll found standing there, its lot unknown and its dates about, is a line like any other.
"""

from collections.abc import Generator, Iterable, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import asdict, dataclass, replace
from datetime import datetime

from stockroom.books.catalog import material_named, materials, place_named
from stockroom.books.drafts import Draft, draft_named, drafts, drop_draft, keep_draft
from stockroom.books.opening import Book
from stockroom.books.orders import order_of, ordering
from stockroom.books.pen import Pen
from stockroom.books.values import Act, ActDraft, Asked, Material, MoveDraft
from stockroom.codes.own import Letter, grouped
from stockroom.errors import Code, Refusal
from stockroom.film.dates import parse_partial_date
from stockroom.work.arriving import lines_to_come, orders_in, pieces_of, say_came
from stockroom.work.goods_line import Line, Typed, complete, typed
from stockroom.work.receive import MOST_PIECES, RECEIVE, Received, begins_with

KIND = "delivery"
USUAL_NAME = "goods in"


@dataclass(frozen=True, slots=True, kw_only=True)
class Delivery:
    """A delivery that is being built."""

    name: str
    lines: tuple[Typed, ...]
    operator: str
    updated_at: datetime

    @property
    def is_ready(self) -> bool:
        """Whether it can be received as it is."""
        return bool(self.lines) and not any(one.needed for one in self.lines)


@dataclass(frozen=True, slots=True, kw_only=True)
class SetLine(Asked):
    """A line is added, or takes the place of the one with that number, counted from 1."""

    line: Line
    name: str = USUAL_NAME
    number: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AddOrder(Asked):
    """What is still to come of an order is added, as it was ordered."""

    order: str
    name: str = USUAL_NAME


@dataclass(frozen=True, slots=True, kw_only=True)
class DropLine(Asked):
    """A line is taken out."""

    number: int
    name: str = USUAL_NAME


@dataclass(frozen=True, slots=True, kw_only=True)
class Forget(Asked):
    """A delivery is thrown away before it was received."""

    name: str = USUAL_NAME


@dataclass(frozen=True, slots=True, kw_only=True)
class ReceiveAll(Asked):
    """All lines of a delivery have come in."""

    name: str = USUAL_NAME


def deliveries(book: Book, *, now: datetime) -> tuple[Delivery, ...]:
    """Every delivery that is being built, oldest first."""
    with book.reading() as connection:
        known = materials(connection, now)
        return tuple(_delivery(one, known) for one in drafts(connection, KIND))


def delivery(book: Book, name: str = USUAL_NAME, *, now: datetime) -> Delivery:
    """One delivery that is being built; an unknown name is not found."""
    with book.reading() as connection:
        found = _kept(draft_named(connection, KIND, name), name)
        return _delivery(found, materials(connection, now))


def set_line(request: SetLine, *, book: Book, now: datetime) -> Delivery:
    """Keep a line; what is known to be wrong is refused at once, what is missing is not."""
    with _editing(request, book, now, job=request.line.job) as pen:
        line = _checked(request, pen)
        draft = draft_named(pen.connection, KIND, request.name)
        if request.number is None:
            lines = [*(_lines(draft) if draft else ()), line]
        else:
            lines = list(_lines(_kept(draft, request.name)))
            lines[_index(request.number, lines)] = line
        return _keep(pen, request, draft, lines)


def add_order(request: AddOrder, *, book: Book, now: datetime) -> Delivery:
    """Add the open lines of an order that are not in the delivery yet."""
    with _editing(request, book, now) as pen:
        draft = draft_named(pen.connection, KIND, request.name)
        lines = list(_lines(draft)) if draft else []
        there = {(one.order, one.order_line) for one in lines}
        order = order_of(pen.connection, request.order)
        found = [
            one
            for one in lines_to_come(order, materials(pen.connection, pen.now))
            if (one.order, one.order_line) not in there
        ]
        if not found:
            raise Refusal(
                Code.ALREADY_THERE, f"All of {grouped(order.code)} is in this delivery already."
            )
        return _keep(pen, request, draft, [*lines, *found])


def drop_line(request: DropLine, *, book: Book, now: datetime) -> Delivery:
    """Take one line out; the others stay in their order."""
    with _editing(request, book, now) as pen:
        draft = _kept(draft_named(pen.connection, KIND, request.name), request.name)
        lines = list(_lines(draft))
        del lines[_index(request.number, lines)]
        return _keep(pen, request, draft, lines)


def forget(request: Forget, *, book: Book, now: datetime) -> None:
    """Throw a delivery away; it was never in the journal."""
    with _editing(request, book, now) as pen:
        draft = draft_named(pen.connection, KIND, request.name)
        drop_draft(pen.connection, _kept(draft, request.name))


def receive_all(request: ReceiveAll, *, book: Book, now: datetime) -> Received:
    """Give each piece of each line a code and a first move, all in one act; the draft ends with it."""
    with book.reading() as connection:
        seen = draft_named(connection, KIND, request.name)
    lines = _lines(seen) if seen else ()
    job, orders = _job_of(lines), orders_in(lines)
    letters = [Letter.ROLL, Letter.BOX]
    with ordering(book, request, now=now, orders=orders, job=job, letters=letters) as pen:
        act = pen.repeated or _append(request, pen, seen)
    return Received(act, tuple(move.piece for move in act.moves))


def _append(request: ReceiveAll, pen: Pen, seen: Draft | None) -> Act:
    draft = _kept(draft_named(pen.connection, KIND, request.name), request.name)
    if draft != seen:
        raise Refusal(Code.LATER_ACT, f"“{draft.name}” was just changed: look at it again.")
    found = _delivery(draft, materials(pen.connection, pen.now))
    if not found.lines:
        raise Refusal(Code.BAD_USAGE, f"“{found.name}” has no line yet: add one first.")
    at = pen.when()
    moves: list[MoveDraft] = []
    for number, one in enumerate(found.lines, start=1):
        with _said_of(number):
            moves += pieces_of(one.line, complete(one, request), pen, at)
    drop_draft(pen.connection, draft)
    act = pen.append(ActDraft(kind=RECEIVE, at=at, moves=tuple(moves), job=pen.job))
    say_came(pen, act, [one.line for one in found.lines])
    return act


@contextmanager
def _editing(
    request: Asked, book: Book, now: datetime, *, job: str | None = None
) -> Generator[Pen, None, None]:
    """One write transaction for drafts, which no other station edits or receives meanwhile."""
    with book.transaction() as connection:
        pen = Pen(connection, request, now)
        if job is not None:
            pen.lock_job(job)
        pen.lock_counters([Letter.ROLL])
        yield pen


def _checked(request: SetLine, pen: Pen) -> Line:
    """The line with its material and place as the book names them."""
    line = request.line
    if line.material is not None:
        line = replace(line, material=material_named(pen.connection, line.material, pen.now).name)
    if line.place is not None:
        line = replace(line, place=place_named(pen.connection, line.place, pen.now).code)
    for day in filter(None, (line.made, line.shipped, line.received, line.printed)):
        parse_partial_date(day)
    one = typed(line, materials(pen.connection, pen.now))
    if not one.needed:
        begins_with(complete(one, request), pen, pen.when())
    return line


def _keep(
    pen: Pen, request: SetLine | DropLine | AddOrder, old: Draft | None, lines: list[Line]
) -> Delivery:
    if sum(line.pieces for line in lines) > MOST_PIECES:
        raise Refusal(Code.TOO_MANY, f"A delivery has {MOST_PIECES} pieces at most: begin another.")
    _job_of(lines)
    content = [
        {name: value for name, value in asdict(line).items() if value is not None} for line in lines
    ]
    draft = Draft(
        id=old.id if old else None,
        kind=KIND,
        name=old.name if old else request.name,
        content={"lines": content},
        operator=request.operator,
        updated_at=pen.now,
    )
    keep_draft(pen.connection, draft)
    return _delivery(draft, materials(pen.connection, pen.now))


def _job_of(lines: Iterable[Line]) -> str | None:
    """The job the prints of a delivery are for; an act is done for one at most."""
    jobs = {line.job for line in lines if line.job is not None}
    if len(jobs) > 1:
        raise Refusal(
            Code.OTHER_JOB,
            "The prints of one delivery are for one job: put the others in a delivery of their own.",
        )
    return next(iter(jobs), None)


def _delivery(draft: Draft, known: Mapping[int, Material]) -> Delivery:
    return Delivery(
        name=draft.name,
        lines=tuple(typed(line, known) for line in _lines(draft)),
        operator=draft.operator,
        updated_at=draft.updated_at,
    )


def _kept(draft: Draft | None, name: str) -> Draft:
    if draft is None:
        raise Refusal(Code.NO_DRAFT, f"No delivery is called “{name}”: see `delivery list`.")
    return draft


def _lines(draft: Draft) -> tuple[Line, ...]:
    return tuple(Line(**line) for line in draft.content["lines"])


def _index(number: int, lines: Sequence[Line]) -> int:
    if not 1 <= number <= len(lines):
        raise Refusal(Code.BAD_NUMBER, f"There is no line {number}: the delivery has {len(lines)}.")
    return number - 1


@contextmanager
def _said_of(number: int) -> Generator[None, None, None]:
    """What is refused inside names the line it is about."""
    try:
        yield
    except Refusal as refusal:
        raise Refusal(refusal.code, f"Line {number}: {refusal.sentence}") from refusal
