"""Orders of which something may still come, as their screen shows them.

cells(one, …)           D000 0019, Northlight Films, sent, due Wed 2026-12-02, 3 to come
detail(one, …)          each line: how many of what, for whom, and how many came
said(orders, today)     2 open · 1 late
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from stockroom.books.orders import Order
from stockroom.books.values import Material, Shop
from stockroom.lines import words
from stockroom.lines.buying import many
from stockroom.lines.buying_plan import noun
from stockroom.lines.orders import each, stage, to_come, total_minor
from stockroom.units import System
from stockroom.units.money import show_money
from stockroom.work.orders import is_late

NOTHING_HERE = "Nothing is on order. On Buying, d drafts what the plan orders of a supplier."


def cells(one: Order, shop: Shop, today: date, *, shows_money: bool) -> tuple[str, ...]:
    """One order."""
    total = total_minor(one)
    money = words.UNKNOWN if total is None else show_money(total, shop.currency)
    return (
        words.code(one.code),
        one.supplier,
        stage(one, today),
        str(to_come(one) or "-"),
        money if shows_money else "",
    )


def detail(one: Order, known: Mapping[int, Material], system: System) -> str:
    """Every line of an order."""
    return "\n".join(_lines(one, known, system))


def _lines(one: Order, known: Mapping[int, Material], system: System) -> Iterator[str]:
    for number, line in enumerate(one.lines, start=1):
        material = known[line.material_id]
        size = "" if each(line, system) == words.UNKNOWN else f" of {each(line, system)}"
        whose = f", for {words.code(line.job)}" if line.job else ""
        came = one.received_pieces(number)
        left = f", {came} came" if came else ""
        pieces = many(line.pieces, noun(material))
        yield f"{number}  {pieces}{size}  {material.name}{whose}{left}"


def said(found: Sequence[Order], today: date) -> str:
    """How many are open, and how many are late."""
    late = sum(is_late(one, today) for one in found)
    return f"{len(found)} open" + (f"  ·  {late} late" if late else "")


def drafted(one: Order) -> str:
    """What was written down."""
    return (
        f"drafted {words.code(one.code)} to {one.supplier}: it is not on its way until it is sent"
    )


def sent(one: Order, today: date) -> str:
    """When an order is expected now."""
    return f"{words.code(one.code)} to {one.supplier}: {stage(one, today)}"


def written(one: Order, page: str, text: str) -> str:
    """Where an order was written to."""
    return f"{words.code(one.code)} to {one.supplier} is in {page}, and to mail in {text} beside it"
