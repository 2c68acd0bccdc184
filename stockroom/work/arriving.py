"""What was ordered comes in: as it was ordered where nobody says otherwise, and the order knows it.

An order is looked at again under its lock, so that two stations never receive the same rolls. Film
that was bought for a job is kept for it from the beginning.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any

from stockroom.books.catalog import jobs, materials, name_key
from stockroom.books.opening import Book
from stockroom.books.orders import CAME, Order, OrderLine, Stage, order_of, ordering, orders, say
from stockroom.books.pen import Pen
from stockroom.books.values import Act, ActDraft, Asked, Material, MoveDraft
from stockroom.codes.own import Letter, grouped
from stockroom.errors import Code, Refusal
from stockroom.work.goods_line import Line, complete, typed
from stockroom.work.receive import MOST_PIECES, RECEIVE, Receive, Received, born
from stockroom.work.reserve import kept_until
from stockroom.work.reserved import Reserved, written

_OF_ONE = frozenset(
    {"lot", "length_nm", "number", "width_nm", "pieces", "cost_minor", "printed", "ink", "job"}
)
"""What can be said of one line only."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReceiveOrder(Asked):
    """What is open of an order has come, or of one line of it; `given` says what is not as ordered.

    The names in `given` are those of a line of goods.
    """

    order: str
    line: int | None = None
    given: Mapping[str, Any] = field(default_factory=dict[str, Any])


def receive_order(request: ReceiveOrder, *, book: Book, now: datetime) -> Received:
    """Give each piece that came a code and a first move, all in one act."""
    letters = [Letter.ROLL, Letter.BOX]
    job = request.given.get("job")
    with ordering(book, request, now=now, orders=[request.order], job=job, letters=letters) as pen:
        act = pen.repeated or _append(request, pen)
    return Received(act, tuple(move.piece for move in act.moves))


def _append(request: ReceiveOrder, pen: Pen) -> Act:
    known = materials(pen.connection, pen.now)
    order = _coming(order_of(pen.connection, request.order))
    lines = [replace(one, **request.given) for one in _asked_for(request, order, known)]
    if sum(one.pieces for one in lines) > MOST_PIECES:
        raise Refusal(
            Code.TOO_MANY,
            f"More than {MOST_PIECES:,} pieces at once: receive one line after the other, --line 1.",
        )
    at = pen.when()
    moves = [
        move
        for one in lines
        for move in pieces_of(one, complete(typed(one, known), request), pen, at)
    ]
    act = pen.append(ActDraft(kind=RECEIVE, at=at, moves=tuple(moves), job=pen.job))
    say_came(pen, act, lines)
    return act


def lines_to_come(order: Order, known: Mapping[int, Material]) -> Iterator[Line]:
    """What is open of an order, as lines of goods that come in as they were ordered."""
    for number, line in _coming(order).open_lines():
        material = known[line.material_id]
        is_usual = line.width_nm == material.width_nm
        yield Line(
            material=material.name,
            length_nm=line.length_nm,
            number=line.number,
            pieces=line.pieces,
            width_nm=None if is_usual else line.width_nm,
            cost_minor=line.cost_minor,
            order=order.code,
            order_line=number,
        )


def pieces_of(line: Line, asked: Receive, pen: Pen, at: datetime) -> tuple[MoveDraft, ...]:
    """The first move of each piece of a line; film that was ordered for a job is kept for it."""
    moves = born(asked, pen, at)
    if line.order is None or line.order_line is None or line.length_nm is None:
        return moves
    ordered = _line(order_of(pen.connection, line.order), line.order_line)
    job = next((one for one in jobs(pen.connection).values() if one.code == ordered.job), None)
    if job is None or job.is_closed or line.printed is not None:
        return moves
    kept = written([Reserved(job.code, line.length_nm, kept_until(job, pen).isoformat())])
    return tuple(replace(move, sets={**move.sets, "reserved": kept}) for move in moves)


def say_came(pen: Pen, act: Act, lines: Iterable[Line]) -> None:
    """Write what an act brought of each order, which must be locked; more than is open is refused."""
    came: dict[str, Counter[int]] = {}
    for one in lines:
        if one.order is not None and one.order_line is not None:
            came.setdefault(one.order, Counter())[one.order_line] += one.pieces
    known = materials(pen.connection, pen.now)
    for code, pieces in came.items():
        order = _coming(order_of(pen.connection, code))
        _refuse_before(order, act, pen)
        for number, count in pieces.items():
            _refuse_more(order, number, count)
        for one in lines:
            if one.order == code and one.order_line is not None:
                _refuse_other(order, one, known)
        say(
            pen,
            CAME,
            {str(number): count for number, count in pieces.items()},
            act_id=act.id,
            order=order,
        )


def offered(book: Book, lines: Sequence[Line], *, now: datetime) -> tuple[Order, ...]:
    """The orders that wait for goods like these, or of who sells these; without any, all on their way.

    Those that a line came of already are left out.
    """
    there = {one.order for one in lines}
    with book.reading() as connection:
        coming = [one for one in orders(connection, are_open=True) if one.is_coming]
        known = materials(connection, now)
    these = [one for one in known.values() if one.name in {line.material for line in lines}]
    sellers = {name_key(one.terms["supplier"]) for one in these if "supplier" in one.terms}
    ids = {one.id for one in these}
    return tuple(
        one
        for one in coming
        if one.code not in there
        and (
            not lines
            or name_key(one.supplier) in sellers
            or any(line.material_id in ids for _, line in one.open_lines())
        )
    )


def orders_in(lines: Iterable[Line]) -> tuple[str, ...]:
    """The codes of the orders that lines of goods came of."""
    return tuple(sorted({one.order for one in lines if one.order is not None}))


def _asked_for(
    request: ReceiveOrder, order: Order, known: Mapping[int, Material]
) -> Sequence[Line]:
    lines = list(lines_to_come(order, known))
    if request.line is not None:
        _line(order, request.line)
        lines = [one for one in lines if one.order_line == request.line]
        if not lines:
            raise Refusal(
                Code.TOO_MANY, f"All of line {request.line} of {grouped(order.code)} has come."
            )
    if len(lines) > 1 and (said := _OF_ONE & request.given.keys()):
        raise Refusal(
            Code.BAD_USAGE,
            f"{grouped(order.code)} waits for {len(lines)} lines: say of which line the "
            f"{sorted(said)[0].removesuffix('_nm').removesuffix('_minor')} is, with --line.",
        )
    return lines


def _coming(order: Order) -> Order:
    if not order.is_coming:
        then = f"say first that it was sent, with `order send {order.code}`."
        if order.stage is not Stage.DRAFT:
            then = "receive what came all the same without it."
        raise Refusal(Code.NOT_COMING, f"Order {grouped(order.code)} is {order.stage}: {then}")
    return order


def _line(order: Order, number: int) -> OrderLine:
    if number not in order.numbers:
        raise Refusal(
            Code.BAD_NUMBER,
            f"There is no line {number}: order {grouped(order.code)} has {len(order.lines)}.",
        )
    return order.lines[number - 1]


def _refuse_before(order: Order, act: Act, pen: Pen) -> None:
    """Refuse what is said to have come before it was ordered; a clock that runs behind is none."""
    sent = order.sent_at
    if sent is not None and act.at < sent <= act.recorded_at:
        raise Refusal(
            Code.TOO_EARLY,
            f"Order {grouped(order.code)} was sent {pen.shop.local(sent):%Y-%m-%d %H:%M}: "
            "give a later time, or receive what came before it without the order.",
        )


def _refuse_more(order: Order, number: int, count: int) -> None:
    _line(order, number)
    if count > (left := order.open_pieces(number)):
        raise Refusal(
            Code.TOO_MANY,
            f"{count} came, and {left} of line {number} of order {grouped(order.code)} "
            "are still to come: receive the rest without the order.",
        )


def _refuse_other(order: Order, line: Line, known: Mapping[int, Material]) -> None:
    ordered = known[_line(order, line.order_line or 0).material_id]
    if line.material != ordered.name:
        raise Refusal(
            Code.WRONG_KIND,
            f"Line {line.order_line} of order {grouped(order.code)} is of {ordered.name}, "
            f"not {line.material}: receive it without the order.",
        )
