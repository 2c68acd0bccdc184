"""Orders: sent and cancelled; what is on its way, and what is late.

They are drafted in work/order_draft.py; what comes is said by the delivery that brings it, in
work/arriving.py.
"""

from dataclasses import dataclass, replace
from datetime import date, datetime

from stockroom.books.calendar import closed_days
from stockroom.books.catalog import materials
from stockroom.books.opening import Book
from stockroom.books.orders import (
    CANCELLED,
    SENT,
    Order,
    Stage,
    is_closed,
    order_of,
    ordering,
    orders,
    say,
)
from stockroom.books.pen import Pen
from stockroom.books.suppliers import supplier_of
from stockroom.books.values import Act, ActDraft, Asked
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.plan.terms import terms_of
from stockroom.work.lead import due_on, lead_of, learned

SEND, CANCEL = "order-send", "order-cancel"


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
            act = append_for(pen, CANCEL, order, request)
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
    act = append_for(pen, SEND, order, request)
    say(pen, SENT, {"expected": expected.isoformat()}, act_id=act.id, order=order)


def append_for(pen: Pen, kind: str, order: Order, request: Asked) -> Act:
    """Append an act that speaks of an order and touches no piece; its remark names the order."""
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
