"""What a shop agreed with a supplier, in force from an instant on; append-only, among the settings.

An order below the least is not taken, one below `paid` costs its carriage; amounts are minor units.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import Connection

from stockroom.books.calendar import ClosedDays
from stockroom.books.catalog import Entry, add_setting, name_key, setting_entries
from stockroom.books.chain import canonical

_NAME = "supplier"


@dataclass(frozen=True, slots=True, kw_only=True)
class Supplier:
    """Who sells, and on which terms; None is not agreed."""

    name: str
    least_minor: int | None = None
    paid_minor: int | None = None
    carriage_minor: int | None = None
    closed: tuple[ClosedDays, ...] = ()


def suppliers(connection: Connection, at: datetime) -> Mapping[str, Supplier]:
    """Every supplier something was agreed with, by the key of its name, as in force at an instant."""
    found: dict[str, Supplier] = {}
    for entry in setting_entries(connection):
        if entry.name == _NAME and entry.from_at <= at:
            one = _supplier(json.loads(entry.value))
            found[name_key(one.name)] = one
    return found


def supplier_of(connection: Connection, name: str, at: datetime) -> Supplier:
    """What was agreed with a supplier; with one nobody spoke of, nothing."""
    return suppliers(connection, at).get(name_key(name), Supplier(name=name))


def put_supplier(
    connection: Connection, one: Supplier, *, operator: str, why: str, now: datetime
) -> None:
    """Put terms in force from now on; the older ones stay on record."""
    content = {
        "name": one.name,
        "least_minor": one.least_minor,
        "paid_minor": one.paid_minor,
        "carriage_minor": one.carriage_minor,
        "closed": [
            [days.first.isoformat(), days.last.isoformat(), days.why] for days in one.closed
        ],
    }
    entry = Entry(name=_NAME, value=canonical(content), from_at=now, operator=operator, why=why)
    add_setting(connection, entry, now=now)


def _supplier(content: Mapping[str, Any]) -> Supplier:
    closed = tuple(
        ClosedDays(date.fromisoformat(first), date.fromisoformat(last), why)
        for first, last, why in content["closed"]
    )
    return Supplier(**{**content, "closed": closed})
