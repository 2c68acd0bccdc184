"""The tables of the climate, beside those of the pieces; rows never leave this room.

Readings are no whole numbers: degrees and per cent as the sensor gave them, at whole seconds.
"""

from collections.abc import Sequence
from datetime import datetime
from typing import ClassVar

from sqlalchemy import BigInteger, Column, Float, ForeignKey, LargeBinary, Table
from sqlmodel import Field, SQLModel

from stockroom.books import order_tables  # noqa: F401 - all_tables knows them
from stockroom.books.tables import big


class SensorRow(SQLModel, table=True):
    """A thermometer that stands somewhere; what it read belongs to it, wherever it goes."""

    __tablename__ = "sensor"

    id: int | None = Field(default=None, primary_key=True)
    name: str
    name_key: str = Field(unique=True)


class SensorEntryRow(SQLModel, table=True):
    """Where a sensor stands and what is added to its readings, from an instant on; append-only."""

    __tablename__ = "sensor_entry"

    id: int | None = Field(default=None, primary_key=True)
    sensor_id: int = Field(foreign_key="sensor.id", index=True)
    zone: str
    offset_c: float
    offset_rh_pct: float
    silent_hours: int
    from_at: datetime
    recorded_at: datetime
    operator: str
    why: str


class ZoneEntryRow(SQLModel, table=True):
    """One value of a zone, in force from an instant on; append-only."""

    __tablename__ = "zone_entry"

    id: int | None = Field(default=None, primary_key=True)
    zone: str
    name: str
    value: str
    from_at: datetime
    recorded_at: datetime
    operator: str
    why: str


class ReadingRow(SQLModel, table=True):
    """What a sensor read at one second, as it gave it; append-only."""

    __tablename__ = "reading"
    __table_args__: ClassVar = {"sqlite_with_rowid": False}

    sensor_id: int = Field(
        sa_column=Column(BigInteger, ForeignKey("sensor.id"), primary_key=True, autoincrement=False)
    )
    at_s: int = Field(sa_column=Column(BigInteger, primary_key=True, autoincrement=False))
    temperature_c: float = Field(sa_column=Column(Float(53), nullable=False))
    rh_pct: float | None = Field(default=None, sa_column=Column(Float(53), nullable=True))


class CoursePartRow(SQLModel, table=True):
    """Sums over some thousand readings of a zone; derived, and made again wherever it is missing."""

    __tablename__ = "course_part"

    zone: str = Field(primary_key=True)
    gap_s: int = Field(sa_column=Column(BigInteger, primary_key=True, autoincrement=False))
    measure: str = Field(primary_key=True)
    part: int = Field(sa_column=Column(BigInteger, primary_key=True, autoincrement=False))
    first_s: int = Field(sa_column=big())
    last_s: int = Field(sa_column=big())
    amount: float = Field(sa_column=Column(Float(53), nullable=False))
    content: bytes = Field(sa_column=Column(LargeBinary, nullable=False))


class SettledRow(SQLModel, table=True):
    """What storage did to all pieces up to a second; derived, and made again wherever it is missing."""

    __tablename__ = "settled"
    __table_args__: ClassVar = {"sqlite_autoincrement": True}  # no number is given twice

    id: int | None = Field(default=None, primary_key=True)
    made_s: int = Field(sa_column=big())
    until_s: int = Field(sa_column=big())
    last_s: int = Field(sa_column=big())
    """A reading up to here makes it void."""
    basis: str
    """What it rests on beside readings and moves; nothing where it is void."""
    pieces: int = Field(sa_column=big())
    moves: int = Field(sa_column=big())
    last_move: int = Field(sa_column=big())
    content: bytes = Field(sa_column=Column(LargeBinary, nullable=False))


DERIVED = frozenset({"course_part", "settled"})
"""Tables that can be dropped and made again from the others; no copy needs them."""


def all_tables() -> Sequence[Table]:
    """Every table of a book, those before others that point to them."""
    return SQLModel.metadata.sorted_tables
