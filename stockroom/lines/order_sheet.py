"""An order as it goes to its supplier: a page, a table for a spreadsheet, plain text for a mail.

No money is on it unless somebody asks, and never what a line is for: that is the shop's own.
"""

from collections.abc import Iterable, Mapping
from datetime import date

from stockroom.books.orders import Order, OrderLine
from stockroom.books.values import Material, Shop
from stockroom.labels.job_sheet import JobSheet
from stockroom.lines import words
from stockroom.lines.answers import mm
from stockroom.lines.orders import each, total_minor
from stockroom.lines.sheet import sheet
from stockroom.units.money import show_money
from stockroom.units.shown import show_width

_HEADS = ("line", "material", "pieces", "width_mm", "length_mm", "count")
_ASKED = "Please name the lot and the day it was made of each roll, and confirm the day it comes."


def page(
    one: Order, known: Iterable[Material], shop: Shop, today: date, *, money: bool
) -> JobSheet:
    """The order as a page with its code, which is scanned when the goods come."""
    named = _named(known)
    heads: tuple[str, ...] = ("no.", "material", "width", "each", "number")
    shares: tuple[int, ...] = (8, 74, 26, 26, 18)
    rows: list[tuple[str, ...]] = [
        (
            str(number),
            named[line.material_id].name,
            _width(line, shop),
            each(line, shop.system),
            _number(line, named),
        )
        for number, line in enumerate(one.lines, start=1)
    ]
    if money:
        heads, shares = (*heads, "price of one"), (*shares, 30)
        rows = [(*row, _price(line, shop)) for row, line in zip(rows, one.lines, strict=True)]
    return JobSheet(
        code=one.code,
        title=f"Order to {one.supplier}",
        facts=tuple(_facts(one, shop, today)),
        heads=heads,
        shares=shares,
        rows=tuple(rows),
        cautions=(*_total(one, shop, money=money), _ASKED),
    )


def text(one: Order, known: Iterable[Material], shop: Shop, today: date, *, money: bool) -> str:
    """The order as plain text."""
    named = _named(known)
    lines = [f"Order {words.code(one.code)} to {one.supplier}", *_facts(one, shop, today), ""]
    for number, line in enumerate(one.lines, start=1):
        sizes = ", ".join(filter(None, (_width(line, shop), each(line, shop.system))))
        price = f", {_price(line, shop)} each" if money else ""
        lines.append(
            f"{number}. {_number(line, named)} of {named[line.material_id].name}, {sizes}{price}"
        )
    lines += ["", *_total(one, shop, money=money), _ASKED]
    return "\n".join(lines) + "\n"


def table(one: Order, known: Iterable[Material], shop: Shop, *, money: bool) -> str:
    """The order for a spreadsheet, as RFC 4180 has it; text that it would run is made harmless."""
    named = _named(known)
    rows = [
        {
            "line": number,
            "material": named[line.material_id].name,
            "pieces": line.pieces,
            "width_mm": mm(line.width_nm),
            "length_mm": mm(line.length_nm),
            "count": line.number,
            "cost_minor": line.cost_minor,
        }
        for number, line in enumerate(one.lines, start=1)
    ]
    heads = (*_HEADS, "cost_minor") if money else _HEADS
    return "\r\n".join(sheet(heads, rows, shop.currency)) + "\r\n"


def _facts(one: Order, shop: Shop, today: date) -> list[str]:
    sent = today if one.sent_at is None else shop.day_of(one.sent_at)
    facts = [f"from {shop.name}", f"ordered on {words.day(sent)}"]
    return facts if one.expected is None else [*facts, f"wanted by {words.day(one.expected)}"]


def _total(one: Order, shop: Shop, *, money: bool) -> tuple[str, ...]:
    total = total_minor(one) if money else None
    return (
        () if total is None else (f"In all {show_money(total, shop.currency)}, before carriage.",)
    )


def _named(known: Iterable[Material]) -> Mapping[int, Material]:
    return {one.id: one for one in known}


def _number(line: OrderLine, named: Mapping[int, Material]) -> str:
    if named[line.material_id].kind.comes_in_rolls:
        return words.counted(line.pieces, "roll")
    return "1 box" if line.pieces == 1 else f"{line.pieces} boxes"


def _width(line: OrderLine, shop: Shop) -> str:
    return "" if line.width_nm is None else show_width(line.width_nm, shop.system)


def _price(line: OrderLine, shop: Shop) -> str:
    return words.UNKNOWN if line.cost_minor is None else show_money(line.cost_minor, shop.currency)
