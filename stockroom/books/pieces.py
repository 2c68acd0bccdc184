"""Reading pieces: as they stand now, and as they stood on a day."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from datetime import datetime
from itertools import chain, groupby
from typing import Any

from sqlalchemy import Connection, Result, bindparam, func, select

from stockroom.books.catalog import job, jobs, material, materials, place, places
from stockroom.books.fold import State, fold
from stockroom.books.journal import move_from
from stockroom.books.prepared import Prepared
from stockroom.books.tables import ActRow, MoveRow, PieceRow, table_of
from stockroom.books.values import Piece, Standing
from stockroom.errors import Code, Refusal

_PIECE = table_of(PieceRow)
_MOVE = table_of(MoveRow)
_ACT = table_of(ActRow)
_AT_ONCE = 1_000
_HEAD_NAMES = ("id", "code", "seq", "head", "last_at", "last_kind")
_CHANGING = (*_HEAD_NAMES[2:], *State._fields)

PIECES = select(*(_PIECE.c[name] for name in (*_HEAD_NAMES, *State._fields)))
"""What `piece_from` reads."""
_BY_CODE = Prepared(PIECES.where(_PIECE.c.code == bindparam("code")))
_ALL = PIECES.order_by(_PIECE.c.code)
_ON_HAND = _ALL.where(_PIECE.c.ended.is_(None))
_RESERVED = _ALL.where(_PIECE.c.reserved.is_not(None))
_OTHER = _PIECE.alias("other")
_ALIKE = _ON_HAND.where(
    _PIECE.c.material_id.in_(select(_OTHER.c.material_id).where(_OTHER.c.code == bindparam("code")))
)
_FILM_AT = (
    select(func.count())
    .select_from(_PIECE)
    .where(
        _PIECE.c.ended.is_(None),
        _PIECE.c.out_to.is_(None),
        _PIECE.c.form != "box",
        _PIECE.c.place_id.in_(bindparam("places", expanding=True)),
    )
)


def piece_from(row: Sequence[Any]) -> Piece:
    """A piece as a value, from a row of `PIECES`."""
    piece_id, code, seq, head, last_at, last_kind, *state = row
    return Piece(
        id=piece_id,
        code=code,
        seq=seq,
        head=head,
        last_at=last_at,
        last_kind=last_kind,
        state=State._make(state),
    )


def row_of(piece: Piece) -> dict[str, Any]:
    """The row of a piece, without its id."""
    return {
        "code": piece.code,
        "seq": piece.seq,
        "head": piece.head,
        "last_at": piece.last_at,
        "last_kind": piece.last_kind,
        **piece.state._asdict(),
    }


def changes_of(piece: Piece, before: Piece) -> dict[str, Any]:
    """The columns of its row in which a piece is other than before; its code never is."""
    old = (before.seq, before.head, before.last_at, before.last_kind, *before.state)
    new = (piece.seq, piece.head, piece.last_at, piece.last_kind, *piece.state)
    return {
        name: value for name, value, was in zip(_CHANGING, new, old, strict=True) if value != was
    }


def standing(connection: Connection, code: str, at: datetime) -> Standing:
    """One piece with all that belongs to it; a code nobody was given is not found."""
    row = _BY_CODE.first(connection, {"code": code})
    if row is None:
        raise Refusal(Code.NO_PIECE, f"No piece has the code {code}.")
    piece = piece_from(row)
    state = piece.state
    return Standing(
        piece=piece,
        material=material(connection, state.material_id, at),
        place=None if state.place_id is None else place(connection, state.place_id, at),
        job=None if state.job_id is None else job(connection, state.job_id),
    )


def standings(connection: Connection, at: datetime, *, ended: bool = False) -> tuple[Standing, ...]:
    """Every piece as it stands now, by code; those that have ended only when asked for."""
    return _those(connection, connection.execute(_ALL if ended else _ON_HAND), at)


def film_at(connection: Connection, places: Collection[int]) -> int:
    """How many pieces of film stand in one of these places now."""
    return int(connection.execute(_FILM_AT, {"places": list(places)}).scalar_one())


def reserved_pieces(connection: Connection) -> Mapping[str, State]:
    """The pieces of which something is reserved, by their codes; those that have ended too."""
    found = map(piece_from, connection.execute(_RESERVED))
    return {one.code: one.state for one in found}


def standings_like(connection: Connection, code: str, at: datetime) -> tuple[Standing, ...]:
    """Every piece on hand of the material of one; for a code nobody was given there is none."""
    return _those(connection, connection.execute(_ALIKE, {"code": code}), at)


def _those(connection: Connection, found: Result[Any], at: datetime) -> tuple[Standing, ...]:
    rows = chain.from_iterable(found.partitions(_AT_ONCE))
    return tuple(_joined(connection, map(piece_from, rows), at))


def standings_as_of(
    connection: Connection, moment: datetime, *, code: str | None = None
) -> tuple[Standing, ...]:
    """Every piece as it stood at an instant, ended ones too: the acts up to then, less those undone by then."""
    undoing = _ACT.alias("undoing")
    undone = select(undoing.c.reverses).where(
        undoing.c.reverses.is_not(None), undoing.c.at <= moment
    )
    wanted = (
        select(
            _MOVE,
            _PIECE.c.code.label("piece"),
            _ACT.c.at,
            _ACT.c.kind.label("act_kind"),
        )
        .join(_ACT, _ACT.c.id == _MOVE.c.act_id)
        .join(_PIECE, _PIECE.c.id == _MOVE.c.piece_id)
        .where(_ACT.c.at <= moment, _ACT.c.reverses.is_(None), _ACT.c.id.not_in(undone))
        .order_by(_PIECE.c.code, _MOVE.c.seq)
    )
    if code is not None:
        wanted = wanted.where(_PIECE.c.code == code)
    rows = connection.execute(wanted).mappings()
    folded = (_folded(list(moves)) for _, moves in groupby(rows, key=lambda row: row["piece"]))
    return tuple(_joined(connection, (piece for piece in folded if piece is not None), moment))


def _folded(rows: list[Mapping[Any, Any]]) -> Piece | None:
    if rows[0]["seq"] != 1:  # its first move was taken back by then, and it was met all the same
        return None
    moves = [move_from(row) for row in rows]
    state = fold(moves[0], moves)
    last = rows[-1]
    return Piece(
        id=last["piece_id"],
        code=last["piece"],
        seq=last["seq"],
        head=last["hash"],
        last_at=max(row["at"] for row in rows),
        last_kind=last["act_kind"],
        state=state,
    )


def _joined(connection: Connection, found: Iterable[Piece], at: datetime) -> Iterator[Standing]:
    of_materials = materials(connection, at)
    of_places = places(connection, at)
    of_jobs = jobs(connection)
    for piece in found:
        state = piece.state
        yield Standing(
            piece=piece,
            material=of_materials[state.material_id],
            place=of_places[state.place_id] if state.place_id is not None else None,
            job=of_jobs[state.job_id] if state.job_id is not None else None,
        )
