"""Curl trials as they stand in the journal: what was measured, of which film, and when."""

import json
from collections.abc import Mapping
from datetime import datetime
from typing import Any, NamedTuple

from sqlalchemy import Connection, bindparam, func, select, text

from stockroom.books.prepared import Prepared
from stockroom.books.tables import CURL_TRIAL, ActRow, MoveRow, PieceRow, table_of

_ACT = table_of(ActRow)
_MOVE = table_of(MoveRow)
_PIECE = table_of(PieceRow)

_UNDOING = _ACT.alias("undoing")
_UNDONE = select(_UNDOING.c.reverses).where(
    _UNDOING.c.reverses.is_not(None), _UNDOING.c.at <= bindparam("until")
)
_TRIALS = Prepared(
    select(_PIECE.c.code, _PIECE.c.material_id, _ACT.c.at, _MOVE.c.facts)
    .join(_ACT, _ACT.c.id == _MOVE.c.act_id)
    .join(_PIECE, _PIECE.c.id == _MOVE.c.piece_id)
    .where(
        text(f"({CURL_TRIAL.text})"),
        _ACT.c.at <= bindparam("until"),
        func.coalesce(_ACT.c.reverses, 0) == 0,  # else acts would be searched first
        _ACT.c.id.not_in(_UNDONE),
    )
    .order_by(_MOVE.c.piece_id, _MOVE.c.seq)
)


class Trial(NamedTuple):
    """One curl trial, as its act has it."""

    piece: str
    material_id: int
    at: datetime
    facts: Mapping[str, Any]


def curl_trials(connection: Connection, until: datetime) -> tuple[Trial, ...]:
    """Every curl trial up to an instant that was not undone by then."""
    rows = _TRIALS.all(connection, {"until": until})
    return tuple(Trial(row.code, row.material_id, row.at, json.loads(row.facts)) for row in rows)
