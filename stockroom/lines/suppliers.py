"""Suppliers as people and programs read them."""

from collections.abc import Sequence
from typing import Any

from stockroom.books.suppliers import Supplier
from stockroom.lines import words
from stockroom.lines.text_reports import stretch
from stockroom.lines.text_table import Columns, table
from stockroom.units.money import show_money

NOTHING_YET = "Nobody sells anything yet: `material change NAME --supplier S` says who does."
_TABLE = Columns(
    heads=("supplier", "least order", "carriage paid from", "else", "closed"),
    right=frozenset({1, 2, 3}),
    flex=4,
)


def lines(found: Sequence[Supplier], currency: str, width: int) -> list[str]:
    """Suppliers, one a line."""
    rows = [
        (
            one.name,
            *(
                "-" if minor is None else show_money(minor, currency)
                for minor in (one.least_minor, one.paid_minor, one.carriage_minor)
            ),
            ", ".join(map(stretch, one.closed)),
        )
        for one in found
    ]
    return table(_TABLE, rows, width) if rows else [NOTHING_YET]


def values(one: Supplier) -> dict[str, Any]:
    """A supplier for a script."""
    return {
        "name": one.name,
        "least_order_minor": one.least_minor,
        "carriage_paid_from_minor": one.paid_minor,
        "carriage_minor": one.carriage_minor,
        "closed": [
            {"first": words.day(days.first), "last": words.day(days.last), "why": days.why}
            for days in one.closed
        ],
    }
