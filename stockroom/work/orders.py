"""Orders: drafted, sent and cancelled; what is on its way, and what is late.

What of an order comes in is said by the delivery that brings it: see work/arriving.py.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from stockroom.books.calendar import closed_days
from stockroom.books.catalog import jobs, material_named, materials, name_key
from stockroom.books.opening import Book
from stockroom.books.orders import (
    CANCELLED,
    SENT,
    Order,
    OrderLine,
    Stage,
    add_order,
    is_closed,
    order_of,
    ordering,
    orders,
    orders_of_act,
    say,
    say_lines,
)
from stockroom.books.pen import Pen
from stockroom.books.suppliers import supplier_of
from stockroom.books.use import Arrival, arrivals
from stockroom.books.values import Act, ActDraft, Asked, Job, Material
from stockroom.codes.own import Letter, grouped
from stockroom.errors import Code, Refusal
from stockroom.plan.terms import price_of, terms_of
from stockroom.work.gates import more_than_nothing
from stockroom.work.lead import due_on, lead_of, learned
from stockroom.work.receive import OURS

DRAFT, SEND, CANCEL = "order", "order-send", "order-cancel"
MOST_LINES, MOST_PIECES = 200, 1_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """So many rolls or boxes of a material; what is None is as its last ones came. None at all: no more."""

    material: str
    pieces: int
    length_nm: int | None = None
    number: int | None = None
    width_nm: int | None = None
    cost_minor: int | None = None
    job: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DraftOrder(Asked):
    """What is to be ordered of a supplier; with `order`, lines of a draft are added or changed.

    Without a supplier it is the one the materials name.
    """

    lines: tuple[Wanted, ...]
    supplier: str | None = None
    order: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SendOrder(Asked):
    """An order has gone to its supplier, or the supplier names another day.

    Without a day it is expected after the lead time.
    """

    order: str
    expected: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CancelOrder(Asked):
    """Of an order nothing more is to come."""

    order: str
    why: str = ""


def draft_order(request: DraftOrder, *, book: Book, now: datetime) -> Order:
    """Write an order down, or other lines of one that is not sent."""
    if not request.lines:
        raise Refusal(Code.BAD_USAGE, "Nothing is to be ordered: name a material and how many.")
    known = () if request.order is None else (request.order,)
    with ordering(book, request, now=now, orders=known, letters=[Letter.ORDER]) as pen:
        act = pen.repeated or _drafted(request, pen)
        return _order_by(pen, act)


def send_order(request: SendOrder, *, book: Book, now: datetime) -> Order:
    """Say that an order has gone out, and when it is expected."""
    with ordering(book, request, now=now, orders=[request.order]) as pen:
        if not pen.repeated:
            _sent(request, pen)
        return order_of(pen.connection, request.order)


def cancel_order(request: CancelOrder, *, book: Book, now: datetime) -> Order:
    """Say that nothing more of an order is to come; what came of it stays."""
    with ordering(book, request, now=now, orders=[request.order]) as pen:
        if not pen.repeated:
            order = order_of(pen.connection, request.order)
            if is_closed(order):
                raise Refusal(
                    Code.NOT_COMING,
                    f"Order {grouped(order.code)} is {order.stage}: there is nothing to cancel.",
                )
            act = _append(pen, CANCEL, order, request)
            say(pen, CANCELLED, {"why": request.why}, act_id=act.id, order=order)
        return order_of(pen.connection, request.order)


def order(book: Book, code: str) -> Order:
    """One order."""
    with book.reading() as connection:
        return order_of(connection, code)


def all_orders(book: Book, *, are_open: bool = False) -> tuple[Order, ...]:
    """Every order, the newest last; or only those of which something may still come."""
    with book.reading() as connection:
        return orders(connection, are_open=are_open)


def is_late(one: Order, today: date) -> bool:
    """Whether something of an order was expected before today."""
    return one.is_coming and one.expected is not None and one.expected < today


def when_due(pen: Pen, one: Order, sent: date) -> date:
    """The day an order that is sent on a day is expected, by the slowest of its materials."""
    known = materials(pen.connection, pen.now)
    took = learned(orders(pen.connection), pen.shop)
    terms = (
        replace(terms_of(known[line.material_id].terms), supplier=one.supplier)
        for line in one.lines
    )
    days = max(lead_of(each, took, pen.shop.house).days for each in terms)
    return due_on(
        sent,
        days,
        supplier=supplier_of(pen.connection, one.supplier, pen.now).closed,
        shop=closed_days(pen.connection, pen.now),
    )


def _drafted(request: DraftOrder, pen: Pen) -> Act:
    came = {one.material_id: one for one in arrivals(pen.connection, OURS)}
    lines = [(wanted.pieces, _line(wanted, pen, came)) for wanted in request.lines]
    if request.order is None:
        order = add_order(pen, request.supplier or _supplier(lines, pen), pen.when())
    else:
        order = _not_sent(order_of(pen.connection, request.order))
        if request.supplier and name_key(request.supplier) != name_key(order.supplier):
            raise Refusal(
                Code.BAD_USAGE,
                f"Order {grouped(order.code)} goes to {order.supplier}: draft another for "
                f"{request.supplier}.",
            )
    left = _together(order.lines, lines)
    act = _append(pen, DRAFT, order, request)
    say_lines(pen, left, act_id=act.id, order=order)
    return act


def _line(wanted: Wanted, pen: Pen, came: Mapping[int, Arrival]) -> OrderLine:
    """A line as it is ordered: what nobody said is as the last of it came."""
    material = material_named(pen.connection, wanted.material, pen.now)
    is_film, last = material.kind.comes_in_rolls, came.get(material.id)
    _refuse_form(wanted, material)
    if wanted.job is not None:
        _open_job(pen, wanted.job)
    usual = None if last is None else last.full
    width = material.width_nm if last is None else last.width_nm
    cost = wanted.cost_minor
    if cost is None:
        cost = price_of(terms_of(material.terms), material.cost_minor, wanted.pieces)
    return OrderLine(
        material_id=material.id,
        pieces=wanted.pieces,
        length_nm=(wanted.length_nm or usual) if is_film else None,
        number=None if is_film else (wanted.number or usual),
        width_nm=(wanted.width_nm or width) if is_film else None,
        cost_minor=cost,
        job=wanted.job,
    )


def _refuse_form(wanted: Wanted, material: Material) -> None:
    if not 0 <= wanted.pieces <= MOST_PIECES:
        raise Refusal(Code.BAD_NUMBER, f"{wanted.pieces} pieces: order up to {MOST_PIECES:,}.")
    is_film = material.kind.comes_in_rolls
    if is_film and wanted.number is not None:
        raise Refusal(
            Code.WRONG_FORM, f"{material.name} comes in rolls: give the length of one, --length."
        )
    if not is_film and (wanted.length_nm is not None or wanted.width_nm is not None):
        raise Refusal(
            Code.WRONG_FORM, f"{material.name} is counted: give how many are in a box, --count."
        )
    sizes = (size for size in (wanted.length_nm, wanted.width_nm) if size is not None)
    more_than_nothing(*sizes)
    if wanted.number is not None:
        more_than_nothing(wanted.number, code=Code.BAD_NUMBER)


def _open_job(pen: Pen, code: str) -> Job:
    found = next((one for one in jobs(pen.connection).values() if one.code == code), None)
    if found is None:
        raise Refusal(Code.NO_JOB, f"No job has the code {code}: see `job list`.")
    if found.is_closed:
        raise Refusal(Code.JOB_CLOSED, f"Job {grouped(code)} is closed: nothing is bought for it.")
    return found


def _supplier(lines: Sequence[tuple[int, OrderLine]], pen: Pen) -> str:
    """Who sells all of it, as the materials say."""
    known = materials(pen.connection, pen.now)
    named = {
        name_key(found): found
        for _, line in lines
        if (found := known[line.material_id].terms.get("supplier"))
    }
    if len(named) != 1:
        who = " and ".join(sorted(named.values())) or "nobody"
        raise Refusal(
            Code.BAD_USAGE,
            f"These materials are sold by {who}: name one supplier for the order.",
        )
    return next(iter(named.values()))


def _together(
    before: Sequence[OrderLine], lines: Sequence[tuple[int, OrderLine]]
) -> list[OrderLine]:
    """The lines of an order with others in place of those of the same goods; none of them: no line."""
    left = {_goods(one): one for one in before}
    for pieces, line in lines:
        if pieces:
            left[_goods(line)] = line
        elif left.pop(_goods(line), None) is None:
            raise Refusal(
                Code.BAD_NUMBER, "An order has at least one roll or box of each material."
            )
    if not 0 < len(left) <= MOST_LINES:
        raise Refusal(
            Code.BAD_NUMBER,
            f"{len(left)} lines: an order has 1 to {MOST_LINES}; drop it with `order cancel`.",
        )
    return list(left.values())


def _goods(line: OrderLine) -> OrderLine:
    """What a line is of, whatever its number and price."""
    return replace(line, pieces=0, cost_minor=None)


def _sent(request: SendOrder, pen: Pen) -> None:
    order = order_of(pen.connection, request.order)
    if is_closed(order):
        raise Refusal(
            Code.NOT_COMING, f"Order {grouped(order.code)} is {order.stage}: draft another."
        )
    if order.stage is not Stage.DRAFT and request.expected is None:
        raise Refusal(
            Code.ORDER_SENT,
            f"Order {grouped(order.code)} was sent already: give the day the supplier names now, "
            "with --expect.",
        )
    at = _when(pen, order, request)
    day = pen.shop.day_of(order.sent_at or at)
    expected = request.expected or when_due(pen, order, day)
    if expected < day:
        raise Refusal(
            Code.TOO_EARLY, f"{expected} is before the order was sent, {day}: give a later day."
        )
    act = _append(pen, SEND, order, request)
    say(pen, SENT, {"expected": expected.isoformat()}, act_id=act.id, order=order)


def _not_sent(order: Order) -> Order:
    if order.stage is not Stage.DRAFT:
        raise Refusal(
            Code.ORDER_SENT,
            f"Order {grouped(order.code)} is {order.stage}: its lines stay; draft another.",
        )
    return order


def _append(pen: Pen, kind: str, order: Order, request: Asked) -> Act:
    note = f"{grouped(order.code)} {order.supplier}"
    at = _when(pen, order, request)
    return pen.append(ActDraft(kind=kind, at=at, moves=(), note=note))


def _when(pen: Pen, order: Order, request: Asked) -> datetime:
    """The instant of the act: never before what was last said of the order."""
    at = pen.when()
    if request.at is not None and at < order.last_at:
        raise Refusal(
            Code.TOO_EARLY,
            f"Order {grouped(order.code)} has a later act "
            f"({pen.shop.local(order.last_at):%Y-%m-%d %H:%M}): give a later time.",
        )
    return max(at, order.last_at)


def _order_by(pen: Pen, act: Act) -> Order:
    """The order an act speaks of."""
    return order_of(pen.connection, orders_of_act(pen.connection, act.id)[0])
