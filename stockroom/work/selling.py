"""Who sells what: each supplier with what was agreed, its films, what to order there, what is on its way."""

from collections.abc import Iterable
from dataclasses import dataclass

from stockroom.books.catalog import name_key
from stockroom.books.orders import Order
from stockroom.books.suppliers import Supplier
from stockroom.work.basket import Basket, baskets
from stockroom.work.buying import Buying, Planned


@dataclass(frozen=True, slots=True, kw_only=True)
class Seller:
    """A supplier, the materials it sells, what to order of it now, and its orders on their way."""

    supplier: Supplier
    rows: tuple[Planned, ...]
    basket: Basket | None
    coming: tuple[Order, ...]


def sellers(found: Buying, orders: Iterable[Order]) -> tuple[Seller, ...]:
    """Every supplier something was agreed with or that a material names, by name."""
    named = {
        name_key(row.terms.supplier): row.terms.supplier for row in found.rows if row.terms.supplier
    }
    known = {key: Supplier(name=name) for key, name in named.items()} | dict(found.agreed)
    to_order = {name_key(one.supplier.name): one for one in baskets(found)}
    coming = [one for one in orders if one.is_coming]
    return tuple(
        Seller(
            supplier=known[key],
            rows=tuple(row for row in found.rows if name_key(row.terms.supplier or "") == key),
            basket=to_order.get(key),
            coming=tuple(one for one in coming if name_key(one.supplier) == key),
        )
        for key in sorted(known)
    )
