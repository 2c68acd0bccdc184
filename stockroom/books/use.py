"""What moves took from pieces, line by line, without what was undone."""

from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import NamedTuple

from sqlalchemy import Connection, and_, bindparam, func, or_, select

from stockroom.books.fold import GONE
from stockroom.books.tables import ActRow, JobRow, MoveRow, PieceRow, table_of

_ACT = table_of(ActRow)
_MOVE = table_of(MoveRow)
_PIECE = table_of(PieceRow)
_JOB = table_of(JobRow)
_UNDOING = _ACT.alias("undoing")
_AT_ONCE = 1_000

# An act that was undone counts neither way: not itself, and not the act that undid it.
_UNDONE = select(_UNDOING.c.reverses).where(
    _UNDOING.c.reverses.is_not(None), _UNDOING.c.at <= bindparam("until")
)
_STANDS = (
    _ACT.c.at <= bindparam("until"),
    _ACT.c.reverses.is_(None),
    _ACT.c.id.not_in(_UNDONE),
)
_OF_KINDS = _MOVE.c.kind.in_(bindparam("kinds", expanding=True))
_LINES = (
    select(
        _ACT.c.id,
        _ACT.c.at,
        _JOB.c.code.label("job"),
        _MOVE.c.kind,
        _MOVE.c.delta,
        _MOVE.c.balance,
        _MOVE.c.used_mm2,
        _MOVE.c.wasted_mm2,
        _MOVE.c.kept_mm2,
        _MOVE.c.cost_minor,
        _PIECE.c.code,
        _PIECE.c.form,
        _PIECE.c.material_id,
        _PIECE.c.owner,
        _PIECE.c.width_nm,
        _PIECE.c.parent,
        or_(_PIECE.c.printed.is_not(None), _PIECE.c.is_laminated).label("is_made"),
    )
    .join(_ACT, _ACT.c.id == _MOVE.c.act_id)
    .join(_PIECE, _PIECE.c.id == _MOVE.c.piece_id)
    .outerjoin(_JOB, _JOB.c.id == _ACT.c.job_id)
    .where(*_STANDS, _OF_KINDS, _ACT.c.at >= bindparam("since"))
    .order_by(_MOVE.c.act_id, _MOVE.c.id)
)
_LAST = (
    select(_PIECE.c.material_id, func.max(_ACT.c.at).label("at"))
    .select_from(_MOVE)
    .join(_ACT, _ACT.c.id == _MOVE.c.act_id)
    .join(_PIECE, _PIECE.c.id == _MOVE.c.piece_id)
    .where(
        *_STANDS,
        _OF_KINDS,
        _PIECE.c.owner == bindparam("owner"),
        or_(_MOVE.c.delta < 0, _MOVE.c.used_mm2 > 0),
    )
    .group_by(_PIECE.c.material_id)
)
_ARRIVALS = (
    select(
        _PIECE.c.material_id,
        _ACT.c.at,
        _PIECE.c.form,
        _PIECE.c.full,
        _PIECE.c.width_nm,
        _PIECE.c.made,
        _PIECE.c.received,
    )
    .select_from(_PIECE)
    .join(_MOVE, and_(_MOVE.c.piece_id == _PIECE.c.id, _MOVE.c.seq == 1))
    .join(_ACT, _ACT.c.id == _MOVE.c.act_id)
    .where(
        _PIECE.c.owner == bindparam("owner"),
        _PIECE.c.parent.is_(None),
        _PIECE.c.printed.is_(None),
        _PIECE.c.mixed.is_(None),
        or_(_PIECE.c.ended.is_(None), _PIECE.c.ended != GONE),
    )
    .order_by(_ACT.c.at, _PIECE.c.id)
)
_CHANGES = (
    select(_ACT.c.at, _MOVE.c.delta, _MOVE.c.balance, _PIECE.c.cost_minor, _PIECE.c.full)
    .select_from(_MOVE)
    .join(_ACT, _ACT.c.id == _MOVE.c.act_id)
    .join(_PIECE, _PIECE.c.id == _MOVE.c.piece_id)
    .where(
        *_STANDS,
        _MOVE.c.delta != 0,
        _PIECE.c.cost_minor.is_not(None),
        _PIECE.c.owner == bindparam("owner"),
    )
    .order_by(_MOVE.c.id)
)
_STOCK_CHANGES = (
    select(_ACT.c.at, _MOVE.c.delta, _MOVE.c.balance, _PIECE.c.form, _PIECE.c.width_nm)
    .select_from(_MOVE)
    .join(_ACT, _ACT.c.id == _MOVE.c.act_id)
    .join(_PIECE, _PIECE.c.id == _MOVE.c.piece_id)
    .where(
        *_STANDS,
        _MOVE.c.delta != 0,
        _PIECE.c.owner == bindparam("owner"),
        _PIECE.c.material_id == bindparam("material_id"),
        _PIECE.c.printed.is_(None),
        _PIECE.c.is_laminated.is_(False),
    )
    .order_by(_ACT.c.at, _MOVE.c.id)
)


class Line(NamedTuple):
    """What one move did, in which act, and to what: areas in mm², money in minor units."""

    act: int
    at: datetime
    job: str | None
    kind: str
    delta: int
    balance: int
    used_mm2: int
    wasted_mm2: int
    kept_mm2: int
    cost_minor: int
    piece: str
    form: str
    material_id: int
    owner: str
    width_nm: int | None
    parent: str | None
    is_made: bool
    """Printed or laminated here or elsewhere: it serves a job."""


def lines(
    connection: Connection, kinds: Iterable[str], *, since: datetime, until: datetime
) -> Iterator[Line]:
    """The moves of these kinds in a stretch of time, act by act, less what was undone by its end."""
    given = {"kinds": tuple(kinds), "since": since, "until": until}
    for part in connection.execute(_LINES, given).partitions(_AT_ONCE):
        yield from map(Line._make, part)


class Arrival(NamedTuple):
    """A blank roll, or a box, as it came in: when that was written, and the dates it came with."""

    material_id: int
    at: datetime
    form: str
    full: int
    width_nm: int | None
    made: str | None
    received: str


def arrivals(connection: Connection, owner: str) -> Iterator[Arrival]:
    """All that ever came in of somebody's, the oldest first."""
    yield from map(Arrival._make, connection.execute(_ARRIVALS, {"owner": owner}))


class Change(NamedTuple):
    """What one move did to the balance of a piece that has a price."""

    at: datetime
    delta: int
    balance: int
    cost_minor: int
    full: int


def changes(connection: Connection, owner: str, *, until: datetime) -> Iterator[Change]:
    """Every change of the balance of somebody's pieces that have a price, less what was undone."""
    given = {"owner": owner, "until": until}
    for part in connection.execute(_CHANGES, given).partitions(_AT_ONCE):
        yield from map(Change._make, part)


class StockChange(NamedTuple):
    """What one move did to the balance of a blank piece."""

    at: datetime
    delta: int
    balance: int
    form: str
    width_nm: int | None


def stock_changes(
    connection: Connection, owner: str, material_id: int, *, until: datetime
) -> Iterator[StockChange]:
    """Every change of somebody's blank stock of a material, the oldest first, less what was undone."""
    given = {"owner": owner, "material_id": material_id, "until": until}
    yield from map(StockChange._make, connection.execute(_STOCK_CHANGES, given))


def last_of_each(
    connection: Connection, kinds: Iterable[str], owner: str, *, until: datetime
) -> dict[int, datetime]:
    """When something was last taken of each material that is somebody's, by the material's id."""
    given = {"kinds": tuple(kinds), "owner": owner, "until": until}
    return {row.material_id: row.at for row in connection.execute(_LAST, given)}
