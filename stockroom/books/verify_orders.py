"""What can be wrong with the orders of a book: with their codes, and with what they say came."""

from collections.abc import Iterator

from sqlalchemy import Connection, func, select

from stockroom.books.order_tables import OrderEntryRow, OrderRow
from stockroom.books.orders import Order, is_closed, orders
from stockroom.books.tables import MoveRow, table_of
from stockroom.books.values import Finding
from stockroom.codes.own import is_code

_ORDER = table_of(OrderRow)
_ENTRY = table_of(OrderEntryRow)
_MOVE = table_of(MoveRow)


def order_findings(connection: Connection) -> Iterator[Finding]:
    """Everything wrong with the orders."""
    closed = {row.code: row.closed for row in connection.execute(select(_ORDER))}
    brought = {
        row.act_id: row.moves
        for row in connection.execute(
            select(_MOVE.c.act_id, func.count().label("moves"))
            .where(_MOVE.c.act_id.in_(select(_ENTRY.c.act_id)))
            .group_by(_MOVE.c.act_id)
        )
    }
    found = orders(connection)
    for code in closed.keys() - {one.code for one in found}:
        yield Finding(code, "is an order of which nothing is said")
    delivered: dict[int, int] = {}
    for one in found:
        if not is_code(one.code):
            yield Finding(one.code, "bears a code whose check character is wrong")
        if closed[one.code] != is_closed(one):
            yield Finding(one.code, "is not open or closed as its acts say")
        yield from _of_lines(one)
        for came in one.came:
            delivered[came.act] = delivered.get(came.act, 0) + sum(came.pieces.values())
    for act, pieces in delivered.items():
        if pieces > brought.get(act, 0):
            yield Finding("", f"act {act} brought fewer pieces than its orders say")


def _of_lines(order: Order) -> Iterator[Finding]:
    for came in order.came:
        if any(number not in order.numbers for number in came.pieces):
            yield Finding(order.code, f"act {came.act} brought a line it does not have")
            return
    for number, line in enumerate(order.lines, start=1):
        if order.received_pieces(number) > line.pieces:
            yield Finding(order.code, f"more of line {number} came than was ordered")
