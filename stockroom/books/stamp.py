"""How far a book has come: another stamp as soon as something was written that others may see.

Every table that only grows says its newest number, and how many of the last thousand there are: on
PostgreSQL a lower number may be committed after a higher one. Materials are few, and may be changed
where they stand. Half-typed deliveries are nobody else's.
"""

from collections.abc import Hashable
from typing import Any

from sqlalchemy import ColumnElement, Connection, Table, func, select

from stockroom.books.climate_tables import DERIVED, all_tables
from stockroom.books.tables import MaterialRow, table_of

_LATE = 1_000
_SAID_BY_ACTS = frozenset({"move", "piece"})
_MATERIAL = table_of(MaterialRow)
_APART = {"draft", _MATERIAL.name} | _SAID_BY_ACTS | DERIVED


def _grows(table: Table) -> bool:
    return "id" in table.c and table.name not in _APART


def _columns(table: Table) -> tuple[ColumnElement[int], ColumnElement[int]]:
    newest = select(func.coalesce(func.max(table.c.id), 0)).scalar_subquery()
    late = select(func.count()).select_from(table).where(table.c.id > newest - _LATE)
    return newest.label(f"{table.name}_newest"), late.scalar_subquery().label(f"{table.name}_late")


_COUNTED: list[ColumnElement[Any]] = [
    column for table in all_tables() if _grows(table) for column in _columns(table)
]
_GROWN = select(*_COUNTED)
_MATERIALS = select(_MATERIAL).order_by(_MATERIAL.c.id)


def stamp(connection: Connection) -> Hashable:
    """What is equal to an earlier stamp as long as nothing was written."""
    grown = tuple(connection.execute(_GROWN).one())
    return grown, tuple(tuple(row) for row in connection.execute(_MATERIALS))
