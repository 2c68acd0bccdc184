"""Suppliers: the least they sell, from what on carriage is paid, what it costs else, closed days."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from typing import Any

from stockroom.books.calendar import ClosedDays
from stockroom.books.catalog import materials, name_key
from stockroom.books.opening import Book
from stockroom.books.suppliers import Supplier, put_supplier, supplier_of, suppliers
from stockroom.books.values import Asked
from stockroom.errors import Code, Refusal


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeSupplier(Asked):
    """What was agreed with a supplier, from now on; `terms` are fields of it, None takes one away.

    On `closed` nobody delivers, both days among them; `opens` takes days out that were entered.
    """

    name: str
    terms: Mapping[str, int | None] = field(default_factory=dict[str, int | None])
    closed: tuple[date, date] | None = None
    opens: tuple[date, date] | None = None
    why: str = ""


def change_supplier(request: ChangeSupplier, *, book: Book, now: datetime) -> Supplier:
    """Put terms of a supplier in force; what was in force before stays on record."""
    if not request.name:
        raise Refusal(Code.BAD_NAME, "A supplier needs a name people know it by.")
    changes: dict[str, Any] = dict(request.terms)
    with book.transaction() as connection:
        before = supplier_of(connection, request.name, now)
        after = replace(before, **changes, closed=_closed(before, request))
        put_supplier(connection, after, operator=request.operator, why=request.why, now=now)
        return supplier_of(connection, request.name, now)


def all_suppliers(book: Book, *, now: datetime) -> tuple[Supplier, ...]:
    """Every supplier something was agreed with, or that a material names, by name."""
    with book.reading() as connection:
        found = dict(suppliers(connection, now))
        for one in materials(connection, now).values():
            if named := one.terms.get("supplier"):
                found.setdefault(name_key(named), Supplier(name=named))
    return tuple(found[key] for key in sorted(found))


def _closed(before: Supplier, request: ChangeSupplier) -> tuple[ClosedDays, ...]:
    found = list(before.closed)
    if request.opens is not None:
        left = [days for days in found if (days.first, days.last) != request.opens]
        if len(left) == len(found):
            raise Refusal(
                Code.ALREADY_THERE, "These days are not closed: name them as `supplier list` does."
            )
        found = left
    if request.closed is not None:
        first, last = request.closed
        if last < first or (last - first).days > _LONGEST_DAYS:
            raise Refusal(
                Code.BAD_DATE,
                "Closed days run from a day to the same or a later one, a year at most.",
            )
        found.append(ClosedDays(first, last, request.why))
    return tuple(sorted(found, key=lambda days: (days.first, days.last)))


_LONGEST_DAYS = 366
