"""Orders as people and programs read them.

listed(orders, …)     one line an order: whose, how far, expected, late
shown(order, …)       its lines: what, ordered, come, price
stage(order, today)   3 days late, sent, due Wed 2026-12-02
values(order, …)      the same for a script
"""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from typing import Any

from stockroom.books.orders import Order, OrderLine, Stage
from stockroom.books.values import Material, Shop
from stockroom.lines import words
from stockroom.lines.answers import mm
from stockroom.lines.text_table import Columns, table
from stockroom.units import System
from stockroom.units.money import show_money
from stockroom.units.shown import show_length, show_width
from stockroom.work.orders import is_late

NOTHING_OPEN = "Nothing is on order: `order draft` writes an order down, `order show --all` lists the old ones."
NOTHING_YET = "Nothing was ever ordered here: `order draft SUPPLIER MATERIAL N`."

_ORDERS = Columns(heads=("order", "supplier", "state", "to come"), right=frozenset({3}), flex=1)
_LINES = Columns(
    heads=("line", "what", "each", "ordered", "came", "price", "for"),
    right=frozenset({0, 2, 3, 4, 5}),
    flex=1,
)


def listed(found: Sequence[Order], today: date, width: int, *, are_all: bool) -> list[str]:
    """Orders, one a line."""
    rows = [
        (words.code(one.code), one.supplier, stage(one, today), str(to_come(one) or "-"))
        for one in found
    ]
    if rows:
        return table(_ORDERS, rows, width)
    return [NOTHING_YET if are_all else NOTHING_OPEN]


def stage(one: Order, today: date) -> str:
    """How far an order has come, and when the rest is expected; first, by how much it is late."""
    if not one.is_coming or one.expected is None:
        return one.stage.value
    said = f"{one.stage}, {due(one)}"
    late = words.counted((today - one.expected).days, "day")
    return f"{late} late, {said}" if is_late(one, today) else said


def due(one: Order) -> str:
    """The day on which the rest is expected."""
    return "" if one.expected is None else f"due {one.expected:%a} {words.day(one.expected)}"


def to_come(one: Order) -> int:
    """How many rolls and boxes are on their way."""
    return sum(line.pieces for _, line in one.open_lines()) if one.is_coming else 0


def shown(one: Order, known: Iterable[Material], shop: Shop, today: date, width: int) -> list[str]:
    """An order with its lines."""
    named = {material.id: material for material in known}
    rows = [
        (
            str(number),
            named[line.material_id].name + _width(line, named, shop.system),
            each(line, shop.system),
            str(line.pieces),
            str(one.received_pieces(number) or "-"),
            _price(line, shop),
            words.code(line.job) if line.job else "stock",
        )
        for number, line in enumerate(one.lines, start=1)
    ]
    head = f"{words.code(one.code)}  {one.supplier}  {stage(one, today)}"
    total = total_minor(one)
    foot = [] if total is None else [f"in all {show_money(total, shop.currency)}"]
    return [head, *table(_LINES, rows, width), *foot]


def each(line: OrderLine, system: System) -> str:
    """What one roll or box holds; unknown where nobody said."""
    if line.number is not None:
        return words.count(line.number)
    return words.UNKNOWN if line.length_nm is None else show_length(line.length_nm, system)


def total_minor(one: Order) -> int | None:
    """What an order costs, where every line has a price."""
    prices = [line.cost_minor for line in one.lines]
    if None in prices:
        return None
    return sum((price or 0) * line.pieces for price, line in zip(prices, one.lines, strict=True))


def _width(line: OrderLine, named: Mapping[int, Material], system: System) -> str:
    usual = named[line.material_id].width_nm
    if line.width_nm in (None, usual):
        return ""
    return f", {show_width(line.width_nm or 0, system)}"


def _price(line: OrderLine, shop: Shop) -> str:
    return "-" if line.cost_minor is None else show_money(line.cost_minor, shop.currency)


def values(one: Order, known: Iterable[Material], shop: Shop, today: date) -> dict[str, Any]:
    """An order for a script."""
    named = {material.id: material.name for material in known}
    return {
        "code": one.code,
        "supplier": one.supplier,
        "state": one.stage.value,
        "drafted_at": one.drafted_at.isoformat(),
        "sent_at": None if one.sent_at is None else one.sent_at.isoformat(),
        "expected_on": None if one.expected is None else words.day(one.expected),
        "is_late": is_late(one, today),
        "to_come": to_come(one),
        "cost_minor": total_minor(one),
        "currency": shop.currency,
        "lines": [
            {
                "line": number,
                "material": named[line.material_id],
                "pieces": line.pieces,
                "came": one.received_pieces(number),
                "open": one.open_pieces(number) if one.stage is not Stage.CANCELLED else 0,
                "length_mm": mm(line.length_nm),
                "count": line.number,
                "width_mm": mm(line.width_nm),
                "cost_minor": line.cost_minor,
                "job": line.job,
            }
            for number, line in enumerate(one.lines, start=1)
        ],
    }
