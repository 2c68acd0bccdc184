"""Reading the journal: acts with their moves."""

import json
from collections.abc import Mapping, Sequence
from datetime import datetime
from functools import lru_cache
from typing import Any, TypedDict, Unpack

from sqlalchemy import Connection, bindparam, exists, select

from stockroom.books.prepared import Prepared
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


_ACTS = select(
    _ACT,
    _JOB.c.code.label("job"),
    exists().where(_UNDOING.c.reverses == _ACT.c.id).label("is_reversed"),
).outerjoin(_JOB, _JOB.c.id == _ACT.c.job_id)
_BY_REQUEST = Prepared(_ACTS.where(_ACT.c.request == bindparam("request")))
_TOUCHING = (
    select(_MOVE.c.act_id)
    .join(_PIECE, _PIECE.c.id == _MOVE.c.piece_id)
    .where(_PIECE.c.code == bindparam("piece"))
)
_MOVES = (
    select(_MOVE, _PIECE.c.code.label("piece"))
    .join(_PIECE, _PIECE.c.id == _MOVE.c.piece_id)
    .where(_MOVE.c.act_id.in_(bindparam("acts", expanding=True)))
    .order_by(_MOVE.c.id)
)
_MOST_AT_ONCE = 500


def act_by_request(connection: Connection, request: str) -> tuple[Act, str] | None:
    """The act a request made, and the hash of what was asked."""
    row = _BY_REQUEST.first(connection, {"request": request})
    if row is None:
        return None
    return _with_moves(connection, [row])[0], str(row.request_hash)


class Sought(TypedDict, total=False):
    """Which acts are asked for; what is None or left out does not matter."""

    piece: str | None
    job: str | None
    operator: str | None
    kind: str | None
    since: datetime | None
    until: datetime | None
    before: int | None
    """Only acts with an id below it: the next page."""
    limit: int | None


def acts(connection: Connection, **sought: Unpack[Sought]) -> tuple[Act, ...]:
    """Acts, newest first, at most `limit`."""
    given = {name: value for name, value in sought.items() if value is not None}
    rows = _acts_by(tuple(given)).all(connection, given)
    return tuple(_with_moves(connection, rows))


@lru_cache
def _acts_by(given: tuple[str, ...]) -> Prepared:
    """The statement for what is given: made once, for building one takes longer than running it."""
    conditions = {
        "piece": _ACT.c.id.in_(_TOUCHING),
        "job": _JOB.c.code == bindparam("job"),
        "kind": _ACT.c.kind == bindparam("kind"),
        "operator": _ACT.c.operator == bindparam("operator"),
        "since": _ACT.c.at >= bindparam("since"),
        "until": _ACT.c.at <= bindparam("until"),
        "before": _ACT.c.id < bindparam("before"),
    }
    wanted = _ACTS.order_by(_ACT.c.id.desc())
    wanted = wanted.where(*(conditions[name] for name in given if name in conditions))
    return Prepared(wanted.limit(bindparam("limit")) if "limit" in given else wanted)


def _with_moves(connection: Connection, rows: Sequence[Any]) -> list[Act]:
    moves: dict[int, list[Move]] = {row.id: [] for row in rows}
    ids = list(moves)
    for start in range(0, len(ids), _MOST_AT_ONCE):
        wanted = {"acts": ids[start : start + _MOST_AT_ONCE]}
        for row in connection.execute(_MOVES, wanted).mappings():
            moves[row["act_id"]].append(move_from(row))
    return [_act(row, moves[row.id]) for row in rows]


def _act(row: Any, moves: list[Move]) -> Act:
    return Act(
        id=row.id,
        job=row.job,
        is_reversed=bool(row.is_reversed),
        moves=tuple(moves),
        **{name: getattr(row, name) for name in ACT_CONTENT},
    )


def move_from(row: Mapping[Any, Any]) -> Move:
    """A move as a value; the row carries the piece's code as `piece`."""
    return Move(
        piece=row["piece"],
        sets=json.loads(row["sets"]),
        facts=json.loads(row["facts"]),
        **{name: row[name] for name in MOVE_CONTENT},
    )


def content_of(move: Move) -> dict[str, object]:
    """What the hash of a move covers."""
    plain = {name: getattr(move, name) for name in MOVE_CONTENT}
    return {"piece": move.piece, "sets": move.sets, "facts": move.facts, **plain}
