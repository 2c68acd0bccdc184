"""Orders: what was ordered of whom, when it was sent and is expected, and what of it came.

An order is a row with a code, and all else is said by acts: entries that only grow. What an act
said that was undone since does not count, so a delivery taken back is open again.

orders(connection, …)        Order, by their numbers
order_of(connection, code)   one of them
ordering(book, request, …)   a Pen for acts of orders, which are locked behind everything else
say(pen, …)                  what an act says of an order
"""

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import asdict, dataclass, field, replace
from datetime import date, datetime
from enum import StrEnum
from itertools import groupby
from typing import Any

from sqlalchemy import Connection, Select, bindparam, insert, select, update

from stockroom.books.chain import canonical
from stockroom.books.opening import Book
from stockroom.books.order_tables import OrderEntryRow, OrderRow
from stockroom.books.pen import Pen, writing
from stockroom.books.tables import ActRow, table_of
from stockroom.books.values import Asked
from stockroom.codes.own import Letter
from stockroom.errors import Code, Refusal

LINES, SENT, CAME, CANCELLED = "lines", "sent", "came", "cancelled"
"""What an act says of an order: all its lines, its day, pieces by the number of a line, its end."""

_ORDER = table_of(OrderRow)
_ENTRY = table_of(OrderEntryRow)
_ACT = table_of(ActRow)
_UNDOING = _ACT.alias("undoing")
_STANDING = (
    select(_ORDER, _ENTRY.c.name, _ENTRY.c.value, _ENTRY.c.act_id, _ACT.c.at)
    .join(_ENTRY, _ENTRY.c.order_id == _ORDER.c.id)
    .join(_ACT, _ACT.c.id == _ENTRY.c.act_id)
    .outerjoin(_UNDOING, _UNDOING.c.reverses == _ACT.c.id)
    .where(_UNDOING.c.id.is_(None))
    .order_by(_ORDER.c.id, _ENTRY.c.id)
)
_OPEN = _STANDING.where(_ORDER.c.closed.is_(False))
_ONE = _STANDING.where(_ORDER.c.code == bindparam("code"))
_LOCKED = (
    select(_ORDER.c.id)
    .where(_ORDER.c.code.in_(bindparam("codes", expanding=True)))
    .order_by(_ORDER.c.id)
    .with_for_update(key_share=True)
)
_OF_ACT = (
    select(_ORDER.c.code)
    .join(_ENTRY, _ENTRY.c.order_id == _ORDER.c.id)
    .where(_ENTRY.c.act_id == bindparam("act"))
    .order_by(_ORDER.c.code)
    .distinct()
)
_LINES_OF_ACT = (
    select(_ORDER.c.supplier, _ENTRY.c.value)
    .join(_ENTRY, _ENTRY.c.order_id == _ORDER.c.id)
    .where(_ENTRY.c.act_id == bindparam("act"), _ENTRY.c.name == LINES)
)


class Stage(StrEnum):
    """How far an order has come."""

    DRAFT = "draft"
    SENT = "sent"
    PART = "part received"
    RECEIVED = "received"
    CANCELLED = "cancelled"


COMING = (Stage.SENT, Stage.PART)
"""The stages in which something is on its way."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderLine:
    """So many rolls of a length, or boxes of a number; the price is of one, in minor units.

    What is for one job is no stock of others. A length that is not known is None.
    """

    material_id: int
    pieces: int
    length_nm: int | None = None
    number: int | None = None
    width_nm: int | None = None
    cost_minor: int | None = None
    job: str | None = None


@dataclass(frozen=True, slots=True)
class Came:
    """What one delivery brought of an order: pieces by the number of a line, from 1."""

    act: int
    at: datetime
    pieces: Mapping[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """An order as its standing acts have it; `expected` is None until it is sent."""

    id: int
    code: str
    supplier: str
    drafted_at: datetime
    lines: tuple[OrderLine, ...] = ()
    sent_at: datetime | None = None
    expected: date | None = None
    came: tuple[Came, ...] = field(default=())
    cancelled_at: datetime | None = None
    last_at: datetime

    @property
    def stage(self) -> Stage:
        """How far it has come."""
        if self.cancelled_at is not None:
            return Stage.CANCELLED
        if self.sent_at is None:
            return Stage.DRAFT
        if not any(self.open_pieces(number) for number in self.numbers):
            return Stage.RECEIVED
        return Stage.PART if self.came else Stage.SENT

    @property
    def is_coming(self) -> bool:
        """Whether something of it is on its way."""
        return self.stage in COMING

    @property
    def numbers(self) -> range:
        """The numbers of its lines."""
        return range(1, len(self.lines) + 1)

    def received_pieces(self, number: int) -> int:
        """How many pieces of a line have come, by its number from 1."""
        return sum(one.pieces.get(number, 0) for one in self.came)

    def open_pieces(self, number: int) -> int:
        """How many pieces of a line have not come."""
        return max(0, self.lines[number - 1].pieces - self.received_pieces(number))

    def open_lines(self) -> Iterator[tuple[int, OrderLine]]:
        """What has not come of each line, with its number."""
        for number, line in enumerate(self.lines, start=1):
            if left := self.open_pieces(number):
                yield number, replace(line, pieces=left)


def orders(connection: Connection, *, are_open: bool = False) -> tuple[Order, ...]:
    """Every order, or only those that are neither received nor cancelled."""
    return _orders(connection, _OPEN if are_open else _STANDING)


def order_of(connection: Connection, code: str) -> Order:
    """The order of a code; one that was never there is not found."""
    found = _orders(connection, _ONE, code=code)
    if not found:
        raise Refusal(Code.NO_ORDER, f"No order has the code {code}: see `order show`.")
    return found[0]


def orders_of_act(connection: Connection, act_id: int) -> tuple[str, ...]:
    """The codes of the orders an act says something of."""
    return tuple(connection.execute(_OF_ACT, {"act": act_id}).scalars())


def lines_of_act(connection: Connection, act_id: int) -> tuple[str, tuple[OrderLine, ...]]:
    """The supplier and the lines of an order as an act wrote them; of another act, none."""
    row = connection.execute(_LINES_OF_ACT, {"act": act_id}).first()
    return ("", ()) if row is None else (row.supplier, _lines(json.loads(row.value)))


@contextmanager
def ordering(
    book: Book,
    asked: Asked,
    *,
    now: datetime,
    orders: Sequence[str] = (),
    job: str | None = None,
    letters: Sequence[Letter] = (),
) -> Iterator[Pen]:
    """A write transaction as `writing` has it, in which orders are locked too, behind all else."""
    with writing(book, asked, now=now, job=job, letters=letters) as pen:
        lock(pen, orders)
        pen.repeated = pen.repeated or pen.find()
        yield pen


def lock(pen: Pen, codes: Iterable[str]) -> None:
    """Lock orders by their numbers: nobody else sends, cancels or receives them meanwhile."""
    if wanted := list(codes):
        pen.connection.execute(_LOCKED, {"codes": wanted}).all()


def add_order(pen: Pen, supplier: str, at: datetime) -> Order:
    """Give a new order its code."""
    code = pen.new_code(Letter.ORDER)
    row = {"code": code, "supplier": supplier, "drafted_at": at, "closed": False}
    made: int = pen.connection.execute(
        insert(_ORDER).values(row).returning(_ORDER.c.id)
    ).scalar_one()
    return Order(id=made, code=code, supplier=supplier, drafted_at=at, last_at=at)


def say(pen: Pen, name: str, value: object, *, act_id: int, order: Order) -> None:
    """Write what an act says of an order, and keep beside it whether something is still to come."""
    row = {"act_id": act_id, "order_id": order.id, "name": name, "value": canonical(value)}
    pen.connection.execute(insert(_ENTRY).values(row))
    close_as_said(pen.connection, order.code)


def say_lines(pen: Pen, lines: Sequence[OrderLine], *, act_id: int, order: Order) -> None:
    """Write all the lines of an order; those before are its lines no more."""
    say(pen, LINES, [asdict(one) for one in lines], act_id=act_id, order=order)


def close_as_said(connection: Connection, code: str) -> None:
    """Keep beside an order whether its standing entries close it."""
    closed = is_closed(order_of(connection, code))
    connection.execute(update(_ORDER).where(_ORDER.c.code == code).values(closed=closed))


def is_closed(order: Order) -> bool:
    """Whether nothing of it is to come any more."""
    return order.stage in (Stage.RECEIVED, Stage.CANCELLED)


def _orders(connection: Connection, wanted: Select[Any], **given: str) -> tuple[Order, ...]:
    rows = connection.execute(wanted, given).mappings()
    return tuple(_folded(list(said)) for _, said in groupby(rows, key=lambda row: row["id"]))


def _folded(rows: Sequence[Mapping[Any, Any]]) -> Order:
    """An order from its standing entries, the oldest first."""
    first = rows[0]
    order = Order(
        last_at=first["drafted_at"],
        **{name: first[name] for name in ("id", "code", "supplier", "drafted_at")},
    )
    for row in rows:
        order = replace(_with(order, row), last_at=max(order.last_at, row["at"]))
    return order


def _with(order: Order, row: Mapping[Any, Any]) -> Order:
    value = json.loads(row["value"])
    match row["name"]:
        case "lines":
            return replace(order, lines=_lines(value))
        case "sent":
            expected = date.fromisoformat(value["expected"])
            return replace(order, sent_at=order.sent_at or row["at"], expected=expected)
        case "came":
            pieces = {int(number): count for number, count in value.items()}
            return replace(order, came=(*order.came, Came(row["act_id"], row["at"], pieces)))
        case _:
            return replace(order, cancelled_at=row["at"])


def _lines(content: Iterable[Mapping[str, Any]]) -> tuple[OrderLine, ...]:
    return tuple(OrderLine(**one) for one in content)
