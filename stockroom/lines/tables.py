"""Reports as tables for a file: use, value, buying and orders, a row for each material, piece or line.

of_use(found), of_value(found), of_buying(found), of_orders(found, …)   Table
"""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from typing import Any

from stockroom.books.orders import Order
from stockroom.books.values import Material, Shop
from stockroom.lines import buying_plan, orders, use, value
from stockroom.work.buying import Buying
from stockroom.work.spreadsheet import Table, a_day, heads_of
from stockroom.work.use import Use
from stockroom.work.value import Value


def of_use(found: Use) -> Table:
    """What was taken, a row for each material, or for each of its weeks or months."""
    return _table(use.values(found)["rows"], found.view.shop.currency)


def of_value(found: Value) -> Table:
    """What each piece of ours is worth."""
    return _table(value.values(found)["pieces"], found.view.shop.currency)


def of_buying(found: Buying) -> Table:
    """What to order of each material; film in metres of full width, goods by number."""
    return _table(buying_plan.values(found)["materials"], found.view.shop.currency)


def of_orders(found: Iterable[Order], known: Sequence[Material], shop: Shop, today: date) -> Table:
    """Every line of every order, beside the order it is of."""
    all_of_them = [orders.values(one, known, shop, today) for one in found]
    rows = [
        {f"order_{name}" if name in _OF_BOTH else name: held for name, held in order.items()} | line
        for order in all_of_them
        for line in order["lines"]
    ]
    return _table(rows, shop.currency)


_OF_BOTH = ("code", "cost_minor")
"""What is said of an order, and would be taken for a line's."""


def _table(rows: Sequence[Mapping[str, Any]], currency: str) -> Table:
    """The rows under all their names, in the order in which these come first; lists are left out."""
    names = [
        name for row in rows for name, held in row.items() if not isinstance(held, dict | list)
    ]
    heads = list(dict.fromkeys(names))
    cells = [[_cell(row.get(name)) for name in heads] for row in rows]
    return Table(heads_of(heads, currency), cells)


def _cell(held: object) -> object:
    return a_day(held) if isinstance(held, str) else held
