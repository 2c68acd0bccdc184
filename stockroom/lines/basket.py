"""What to order of one supplier at once, as people and programs read it."""

from typing import Any

from stockroom.lines import words
from stockroom.units.money import show_money
from stockroom.work.basket import Basket, Item


def lines(one: Basket, currency: str, *, shows_money: bool = True) -> list[str]:
    """What to order of a supplier, what it costs, and when it would come."""
    parts = ", ".join(_item(item) for item in one.items if not item.is_along)
    along = [_item(item) for item in one.items if item.is_along]
    said = f"{one.supplier.name}: {parts}"
    if along:
        said += f"; along with it {', '.join(along)}, for {_along(one)}"
    costs = _costs(one, currency) if shows_money else ""
    return [f"{said}. {costs}It would be here on {one.due:%a} {words.day(one.due)}."]


def _along(one: Basket) -> str:
    return "the carriage" if one.supplier.paid_minor is not None else "the least order"


def _item(item: Item) -> str:
    return f"{item.rolls} {item.planned.material.name}"


def _costs(one: Basket, currency: str) -> str:
    total, supplier = one.total_minor, one.supplier
    if total is None:
        return ""
    said = show_money(total, currency)
    if one.is_too_small and supplier.least_minor is not None:
        return f"{said}, and the least order is {show_money(supplier.least_minor, currency)}. "
    if one.is_paid:
        return f"{said}, carriage paid. "
    if supplier.paid_minor is not None:
        short = show_money(supplier.paid_minor - total, currency)
        carriage = supplier.carriage_minor
        more = "" if carriage is None else f", so {show_money(carriage, currency)} for carriage"
        return f"{said}, {short} short of carriage paid{more}. "
    return f"{said}. "


def values(one: Basket) -> dict[str, Any]:
    """The same for a script."""
    return {
        "supplier": one.supplier.name,
        "total_minor": one.total_minor,
        "carriage_paid_from_minor": one.supplier.paid_minor,
        "least_order_minor": one.supplier.least_minor,
        "is_carriage_paid": one.is_paid,
        "is_too_small": one.is_too_small,
        "due_on": words.day(one.due),
        "items": [
            {
                "material": item.planned.material.name,
                "rolls": item.rolls,
                "is_along": item.is_along,
                "cost_minor": item.each_minor,
            }
            for item in one.items
        ],
    }
