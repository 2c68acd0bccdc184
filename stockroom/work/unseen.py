"""Material that never came in: what one roll or box of it is taken to be, so that it can be planned."""

from collections.abc import Iterable
from datetime import datetime

from stockroom.books.orders import Order, OrderLine
from stockroom.books.use import Arrival
from stockroom.books.values import Material, Shop
from stockroom.film.presets import usual


def as_if_it_came(
    material: Material, orders: Iterable[Order], shop: Shop, now: datetime
) -> Arrival | None:
    """One roll or box as it was ordered last, or film as it is usually sold; None where nobody knows."""
    lines = [line for one in orders for line in one.lines if line.material_id == material.id]
    is_film = material.kind.comes_in_rolls
    full = _ordered(lines) or next(iter(usual(material.kind).lengths_nm), None)
    width_nm = next((one.width_nm for one in lines[::-1] if one.width_nm), material.width_nm)
    if full is None or (is_film and width_nm is None):
        return None
    return Arrival(
        material_id=material.id,
        at=now,
        form="roll" if is_film else "box",
        full=full,
        width_nm=width_nm if is_film else None,
        made=None,
        received=shop.day_of(now).isoformat(),
    )


def _ordered(lines: Iterable[OrderLine]) -> int | None:
    sizes = [one.length_nm or one.number for one in lines]
    return next((size for size in reversed(sizes) if size), None)
