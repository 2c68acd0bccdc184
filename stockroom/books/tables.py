"""The tables of a book; rows never leave this room.

Quantities are BIGINT: nanometres, square millimetres, pieces, minor units of money. Dates known
in part (`2025-03`) are kept as the text that was given. `sets` and `facts` are canonical JSON.
"""

from datetime import datetime
from typing import ClassVar

from sqlalchemy import (
    BigInteger,
    CheckConstraint,
    Column,
    Index,
    Table,
    Text,
    UniqueConstraint,
    text,
)
from sqlmodel import Field, SQLModel


def table_of(row: type[SQLModel]) -> Table:
    """The table behind a row class, for statements written in SQLAlchemy core."""
    return SQLModel.metadata.tables[str(row.__tablename__)]


def big(*, nullable: bool = False) -> Column[int]:
    """A column for a quantity."""
    return Column(BigInteger, nullable=nullable)


MOVES_A_PIECE = text("""sets LIKE '%"place_id"%' OR sets LIKE '%"out_to"%'""")
"""What a move that changes where a piece stands looks like; an index holds only these."""

CURL_TRIAL = text("""facts LIKE '%"trial":"curl"%'""")
"""What a move that is a curl trial looks like; an index holds only these."""

RESERVED = text("reserved IS NOT NULL")


class SettingRow(SQLModel, table=True):
    """One value of a house setting, in force from an instant on; append-only."""

    __tablename__ = "setting"

    id: int | None = Field(default=None, primary_key=True)
    name: str = Field(index=True)
    value: str
    from_at: datetime
    recorded_at: datetime
    operator: str
    why: str


class MaterialRow(SQLModel, table=True):
    """A film or supply as it is bought."""

    __tablename__ = "material"

    id: int | None = Field(default=None, primary_key=True)
    name: str
    name_key: str = Field(unique=True)
    kind: str
    width_nm: int | None = Field(default=None, sa_column=big(nullable=True))
    thickness_nm: int | None = Field(default=None, sa_column=big(nullable=True))
    applied_nm: int | None = Field(default=None, sa_column=big(nullable=True))
    core_inside_nm: int | None = Field(default=None, sa_column=big(nullable=True))
    core_wall_nm: int | None = Field(default=None, sa_column=big(nullable=True))
    layers: str = Field(default="[]", sa_type=Text)
    counted_from: str = "made"
    cost_minor: int | None = Field(default=None, sa_column=big(nullable=True))
    note: str = ""
    finish: str | None = None


class LimitRow(SQLModel, table=True):
    """A limit of one material under one rule, in force from an instant on; append-only."""

    __tablename__ = "limit"

    id: int | None = Field(default=None, primary_key=True)
    material_id: int = Field(foreign_key="material.id", index=True)
    rule: str
    value: str
    basis: str
    from_at: datetime
    recorded_at: datetime
    operator: str
    why: str


class PlaceRow(SQLModel, table=True):
    """Where a piece can stand."""

    __tablename__ = "place"

    id: int | None = Field(default=None, primary_key=True)
    code: str = Field(unique=True)
    name: str
    name_key: str = Field(unique=True)


class PlaceZoneRow(SQLModel, table=True):
    """The zone a place lies in, from an instant on; append-only."""

    __tablename__ = "place_zone"

    id: int | None = Field(default=None, primary_key=True)
    place_id: int = Field(foreign_key="place.id", index=True)
    zone: str
    from_at: datetime
    recorded_at: datetime
    operator: str


class JobRow(SQLModel, table=True):
    """Work for a site; `closed` caches the newest close or reopen act."""

    __tablename__ = "job"

    id: int | None = Field(default=None, primary_key=True)
    code: str = Field(unique=True)
    name: str
    site: str = ""
    on_day: str | None = None
    kind: str = "glass"
    note: str = ""
    closed: bool = False
    opened_at: datetime
    glass: str | None = None


class JobEntryRow(SQLModel, table=True):
    """What an act says of its job: its panels, or what became of them; append-only."""

    __tablename__ = "job_entry"

    id: int | None = Field(default=None, primary_key=True)
    act_id: int = Field(foreign_key="act.id", index=True)
    job_id: int = Field(foreign_key="job.id", index=True)
    name: str
    value: str = Field(sa_type=Text)


class CounterRow(SQLModel, table=True):
    """The last number given out for each letter; one locked row serialises code making."""

    __tablename__ = "counter"

    letter: str = Field(primary_key=True)
    last: int = Field(sa_column=big())


class ActRow(SQLModel, table=True):
    """One thing somebody did, at one time, for one reason; append-only."""

    __tablename__ = "act"

    id: int | None = Field(default=None, primary_key=True)
    request: str = Field(unique=True)
    request_hash: str
    kind: str
    at: datetime = Field(index=True)
    recorded_at: datetime
    operator: str
    job_id: int | None = Field(default=None, foreign_key="job.id", index=True)
    note: str = ""
    reverses: int | None = Field(default=None, foreign_key="act.id", unique=True)


class PieceRow(SQLModel, table=True):
    """One physical piece: its folded state, and the head of its journal."""

    __tablename__ = "piece"
    __table_args__: ClassVar = (
        CheckConstraint("balance >= 0", name="piece_balance"),
        Index("ix_piece_reserved", "code", sqlite_where=RESERVED, postgresql_where=RESERVED),
    )

    id: int | None = Field(default=None, primary_key=True)
    code: str = Field(unique=True)
    seq: int
    head: str
    last_at: datetime = Field(index=True)
    last_kind: str
    # what follows mirrors fold.State, name by name
    form: str
    material_id: int = Field(foreign_key="material.id", index=True)
    lot: str | None = None
    owner: str = "ours"
    width_nm: int | None = Field(default=None, sa_column=big(nullable=True))
    balance: int = Field(sa_column=big())
    full: int = Field(sa_column=big())
    thickness_nm: int | None = Field(default=None, sa_column=big(nullable=True))
    core_inside_nm: int | None = Field(default=None, sa_column=big(nullable=True))
    core_wall_nm: int | None = Field(default=None, sa_column=big(nullable=True))
    cost_minor: int | None = Field(default=None, sa_column=big(nullable=True))
    made: str | None = None
    shipped: str | None = None
    received: str
    printed: str | None = None
    printed_by: str | None = None
    ink: str | None = None
    is_laminated: bool = False
    is_wound: bool = True
    in_tube: bool = False
    wound_since: str | None = None
    wound_days_before: int = 0
    shelf_passed: str | None = None
    wound_passed: str | None = None
    place_id: int | None = Field(default=None, foreign_key="place.id", index=True)
    held: str | None = None
    ended: str | None = Field(default=None, index=True)
    parent: str | None = None
    job_id: int | None = Field(default=None, foreign_key="job.id")
    out_to: str | None = Field(default=None, index=True)
    out_since: str | None = None
    out_by: str | None = None
    artwork: str | None = None
    tile: str | None = None
    laminate_lot: str | None = None
    layers: str | None = Field(default=None, sa_type=Text)
    winding: str | None = None
    flaws: str | None = Field(default=None, sa_type=Text)
    recount: str | None = Field(default=None, sa_type=Text)
    parts: str | None = Field(default=None, sa_type=Text)
    missing: str | None = Field(default=None, sa_type=Text)
    mixed: str | None = None
    keeps_days: int | None = None
    contents: str | None = None
    hazard: str | None = None
    claim: str | None = None
    curl_at_nm: int | None = Field(default=None, sa_column=big(nullable=True))
    windings: str | None = Field(default=None, sa_type=Text)
    reserved: str | None = Field(default=None, sa_type=Text)
    begun: str | None = None


class MoveRow(SQLModel, table=True):
    """One line of the journal: what one act did to one piece; append-only."""

    __tablename__ = "move"
    __table_args__: ClassVar = (
        UniqueConstraint("piece_id", "seq", name="move_piece_seq"),
        CheckConstraint("balance >= 0", name="move_balance"),
        Index(
            "ix_move_of_place",
            "piece_id",
            "seq",
            sqlite_where=MOVES_A_PIECE,
            postgresql_where=MOVES_A_PIECE,
        ),
        Index(
            "ix_move_of_curl",
            "piece_id",
            "seq",
            sqlite_where=CURL_TRIAL,
            postgresql_where=CURL_TRIAL,
        ),
    )

    id: int | None = Field(default=None, primary_key=True)
    act_id: int = Field(foreign_key="act.id", index=True)
    piece_id: int = Field(foreign_key="piece.id")
    seq: int
    kind: str
    delta: int = Field(sa_column=big())
    balance: int = Field(sa_column=big())
    used_mm2: int = Field(default=0, sa_column=big())
    wasted_mm2: int = Field(default=0, sa_column=big())
    kept_mm2: int = Field(default=0, sa_column=big())
    cost_minor: int = Field(default=0, sa_column=big())
    sets: str = Field(sa_type=Text)
    facts: str = Field(sa_type=Text)
    hash: str


class PersonRow(SQLModel, table=True):
    """Somebody who works here; `key` is the digit they answer to on the Bench."""

    __tablename__ = "person"

    id: int | None = Field(default=None, primary_key=True)
    name: str
    name_key: str = Field(unique=True)
    key: int | None = Field(default=None, unique=True)


class DraftRow(SQLModel, table=True):
    """Something half typed, kept until it is written or thrown away; no part of the journal."""

    __tablename__ = "draft"

    id: int | None = Field(default=None, primary_key=True)
    kind: str = Field(index=True)
    name: str
    content: str = Field(sa_type=Text)
    operator: str
    updated_at: datetime
