"""Reading the journal: acts with their moves."""

import json
from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any, TypedDict, Unpack

from sqlalchemy import Connection, Select, bindparam, exists, select

from stockroom.books.tables import ActRow, JobRow, MoveRow, PieceRow, table_of
from stockroom.books.values import Act, Move

_ACT = table_of(ActRow)
_MOVE = table_of(MoveRow)
_PIECE = table_of(PieceRow)
_JOB = table_of(JobRow)
_UNDOING = _ACT.alias("undoing")

ACT_CONTENT = ("request", "kind", "at", "recorded_at", "operator", "note", "reverses")
"""The columns of an act that the hash of each of its moves covers, beside the job's code and the
hash of what was asked."""

MOVE_CONTENT = (
    "seq",
    "kind",
    "delta",
    "balance",
    "used_mm2",
    "wasted_mm2",
    "kept_mm2",
    "cost_minor",
)
"""The plain columns of a move that its hash covers, beside the piece's code, sets and facts."""


_TOUCHING = (
    select(_MOVE.c.act_id)
    .join(_PIECE, _PIECE.c.id == _MOVE.c.piece_id)
    .where(_PIECE.c.code == bindparam("piece"))
)


def _acts() -> Select[Any]:
    is_reversed = exists().where(_UNDOING.c.reverses == _ACT.c.id).label("is_reversed")
    return select(_ACT, _JOB.c.code.label("job"), is_reversed).outerjoin(
        _JOB, _JOB.c.id == _ACT.c.job_id
    )


def act_by_request(connection: Connection, request: str) -> tuple[Act, str] | None:
    """The act a request made, and the hash of what was asked."""
    row = connection.execute(_acts().where(_ACT.c.request == request)).mappings().first()
    if row is None:
        return None
    return _with_moves(connection, [row])[0], str(row["request_hash"])


def act_by_id(connection: Connection, act_id: int) -> Act:
    """One act."""
    row = connection.execute(_acts().where(_ACT.c.id == act_id)).mappings().one()
    return _with_moves(connection, [row])[0]


class Sought(TypedDict, total=False):
    """Which acts are asked for; what is None or left out does not matter."""

    piece: str | None
    job: str | None
    operator: str | None
    since: datetime | None
    until: datetime | None
    before: int | None
    """Only acts with an id below it: the next page."""
    limit: int | None


def acts(connection: Connection, **sought: Unpack[Sought]) -> tuple[Act, ...]:
    """Acts, newest first, at most `limit`."""
    conditions = {
        "piece": _ACT.c.id.in_(_TOUCHING),
        "job": _JOB.c.code == bindparam("job"),
        "operator": _ACT.c.operator == bindparam("operator"),
        "since": _ACT.c.at >= bindparam("since"),
        "until": _ACT.c.at <= bindparam("until"),
        "before": _ACT.c.id < bindparam("before"),
    }
    given = {name: value for name, value in sought.items() if value is not None}
    wanted = _acts().where(*(conditions[name] for name in given if name in conditions))
    wanted = wanted.order_by(_ACT.c.id.desc()).limit(sought.get("limit"))
    given.pop("limit", None)
    rows = connection.execute(wanted, given).mappings().all()
    return tuple(_with_moves(connection, rows))


def _with_moves(connection: Connection, rows: Iterable[Mapping[Any, Any]]) -> list[Act]:
    rows = list(rows)
    moves: dict[int, list[Move]] = {row["id"]: [] for row in rows}
    ids = list(moves)
    for start in range(0, len(ids), 500):
        wanted = (
            select(_MOVE, _PIECE.c.code.label("piece"))
            .join(_PIECE, _PIECE.c.id == _MOVE.c.piece_id)
            .where(_MOVE.c.act_id.in_(ids[start : start + 500]))
            .order_by(_MOVE.c.id)
        )
        for row in connection.execute(wanted).mappings():
            moves[row["act_id"]].append(move_from(row))
    return [_act(row, moves[row["id"]]) for row in rows]


def _act(row: Mapping[Any, Any], moves: list[Move]) -> Act:
    return Act(
        id=row["id"],
        job=row["job"],
        is_reversed=bool(row["is_reversed"]),
        moves=tuple(moves),
        **{name: row[name] for name in ACT_CONTENT},
    )


def move_from(row: Mapping[Any, Any]) -> Move:
    """A move as a value; the row carries the piece's code as `piece`."""
    return Move(
        piece=row["piece"],
        sets=json.loads(row["sets"]),
        facts=json.loads(row["facts"]),
        **{name: row[name] for name in MOVE_CONTENT},
    )
