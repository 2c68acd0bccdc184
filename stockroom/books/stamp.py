"""How far a book has come: another stamp as soon as something was written that others may see.

Every table that only grows says its newest number, and how many of the last thousand there are: on
PostgreSQL a lower number may be committed after a higher one. Materials are few, and may be changed
where they stand. Readings have no number, and are many: the newest of each sensor and how many there are of a month before
say whether one came; of an older one, what is summed over whole parts of them. Half-typed deliveries are nobody else's.
"""

from collections.abc import Hashable
from typing import Any

from sqlalchemy import ColumnElement, Connection, Table, func, select

from stockroom.books.climate_tables import (
    DERIVED,
    CoursePartRow,
    ReadingRow,
    SensorRow,
    all_tables,
)
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
_MONTH_S = 30 * 86_400
_SENSOR, _READING, _PART = table_of(SensorRow), table_of(ReadingRow), table_of(CoursePartRow)
_LATE_ONE = _READING.alias("late")
_NEWEST = (
    select(func.max(_READING.c.at_s))
    .where(_READING.c.sensor_id == _SENSOR.c.id)
    .correlate(_SENSOR)
    .scalar_subquery()
)
_OF_A_MONTH = (
    select(func.count())
    .select_from(_LATE_ONE)
    .where(_LATE_ONE.c.sensor_id == _SENSOR.c.id, _LATE_ONE.c.at_s > _NEWEST - _MONTH_S)
    .correlate(_SENSOR)
    .scalar_subquery()
)
_READ = select(_SENSOR.c.id, _NEWEST, _OF_A_MONTH).order_by(_SENSOR.c.id)
_SUMMED = select(func.count(), func.sum(_PART.c.last_s), func.sum(_PART.c.amount)).where(
    _PART.c.measure.between("age", "age~")
)
_MATERIALS = select(_MATERIAL).order_by(_MATERIAL.c.id)


def stamp(connection: Connection) -> Hashable:
    """What is equal to an earlier stamp as long as nothing was written."""
    grown = tuple(connection.execute(_GROWN).one())
    read = tuple(tuple(row) for row in connection.execute(_READ))
    summed = tuple(connection.execute(_SUMMED).one())
    return grown, read, summed, tuple(tuple(row) for row in connection.execute(_MATERIALS))
