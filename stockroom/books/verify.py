"""Folding every journal again and comparing; what is found is said, nothing is mended."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from typing import Any

from sqlalchemy import Connection, func, select, text
from sqlalchemy.exc import DatabaseError

from stockroom.books.chain import START, link
from stockroom.books.fold import State, fold
from stockroom.books.journal import ACT_CONTENT, content_of, move_from
from stockroom.books.order_tables import OrderEntryRow
from stockroom.books.tables import ActRow, JobEntryRow, JobRow, MoveRow, PieceRow, table_of
from stockroom.books.values import Finding, Move
from stockroom.books.verify_climate import climate_findings
from stockroom.books.verify_orders import order_findings
from stockroom.codes.own import is_code

_ACT = table_of(ActRow)
_ENTRY = table_of(JobEntryRow)
_OF_ORDER = table_of(OrderEntryRow)
_MOVE = table_of(MoveRow)
_PIECE = table_of(PieceRow)
_JOB = table_of(JobRow)

UNREADABLE = (DatabaseError, ValueError, TypeError)
"""What reading a damaged row ends with: text that is none, a date that is none, a number that is text."""


def verify(connection: Connection) -> list[Finding]:
    """Everything wrong with a book: broken files, broken chains, states that do not add up."""
    try:
        parts = (_engine, _pieces, _acts, _jobs, order_findings, climate_findings)
        return [finding for part in parts for finding in part(connection)]
    except UNREADABLE:
        return [*_engine(connection), *_one_by_one(connection)]


def _engine(connection: Connection) -> Iterator[Finding]:
    if connection.dialect.name != "sqlite":
        return
    for pragma in ("integrity_check", "foreign_key_check"):
        try:
            rows = connection.execute(text(f"PRAGMA {pragma}")).all()
        except DatabaseError as error:
            yield Finding("", f"{pragma}: {error.orig}")
            continue
        for row in rows:
            if row[0] != "ok":
                yield Finding("", f"{pragma}: {' '.join(str(cell) for cell in row)}")


def _one_by_one(connection: Connection) -> Iterator[Finding]:
    """The same piece by piece, to say of which something cannot even be read."""
    for row in connection.execute(select(_PIECE.c.id, _PIECE.c.code)).all():
        try:
            yield from list(_pieces(connection, only=row.id))
        except UNREADABLE:
            yield Finding(row.code, "cannot be read: the piece or its journal is damaged")
    yield Finding("", "the book cannot be read to its end: restore the newest backup")


def _pieces(connection: Connection, *, only: int | None = None) -> Iterator[Finding]:
    undoing = _ACT.alias("undoing")
    undone = set(
        connection.execute(
            select(undoing.c.reverses).where(undoing.c.reverses.is_not(None))
        ).scalars()
    )
    content = [_ACT.c[name].label(f"act_{name}") for name in (*ACT_CONTENT, "request_hash")]
    pieces = select(_PIECE)
    moves = (
        select(_MOVE, *content, _JOB.c.code.label("act_job"))
        .join(_ACT, _ACT.c.id == _MOVE.c.act_id)
        .outerjoin(_JOB, _JOB.c.id == _ACT.c.job_id)
        .order_by(_MOVE.c.piece_id, _MOVE.c.seq)
    )
    if only is not None:
        pieces, moves = pieces.where(_PIECE.c.id == only), moves.where(_MOVE.c.piece_id == only)
    kept = {row["id"]: row for row in connection.execute(pieces).mappings()}
    seen: set[int] = set()
    rows = connection.execute(moves).mappings()
    for piece_id, lines in groupby(rows, key=lambda row: row["piece_id"]):
        seen.add(piece_id)
        if (row := kept.get(piece_id)) is None:
            yield Finding("", f"the moves of piece {piece_id} belong to no piece")
        else:
            yield from _one(row, list(lines), undone)
    for piece_id, row in kept.items():
        if piece_id not in seen:
            yield Finding(row["code"], "has no journal")


def _one(
    row: Mapping[Any, Any], lines: Sequence[Mapping[Any, Any]], undone: set[int]
) -> Iterator[Finding]:
    code = row["code"]
    if not is_code(code):
        yield Finding(code, "bears a code whose check character is wrong")
    head = START
    balance = 0
    moves: list[Move] = []
    for number, line in enumerate(lines, start=1):
        move = move_from({**line, "piece": code})
        moves.append(move)
        act = {name: line[f"act_{name}"] for name in ACT_CONTENT}
        act |= {"job": line["act_job"], "request_hash": line["act_request_hash"]}
        head = link(head, act, content_of(move))
        balance += move.delta
        if line["seq"] != number:
            yield Finding(code, f"move {number} is missing")
            return
        if line["hash"] != head:
            yield Finding(code, f"move {number} ({move.kind}) was changed after it was written")
            return
        if move.balance != balance:
            yield Finding(code, f"move {number} ({move.kind}) does not add up")
            return
    if row["head"] != head or row["seq"] != len(lines):
        yield Finding(code, "its journal is shorter or longer than the piece remembers")
    yield from _cached(row, lines, moves, undone)


def _cached(
    row: Mapping[Any, Any], lines: Sequence[Mapping[Any, Any]], moves: list[Move], undone: set[int]
) -> Iterator[Finding]:
    standing = [
        move
        for line, move in zip(lines, moves, strict=True)
        if line["act_id"] not in undone and line["act_reverses"] is None
    ]
    state = fold(moves[0], standing)
    cached = State(**{name: row[name] for name in State._fields})
    for name in State._fields:
        was, is_now = getattr(state, name), getattr(cached, name)
        if was != is_now:
            yield Finding(row["code"], f"{name} reads {is_now!r}, its journal says {was!r}")
    last = max(line["act_at"] for line in lines)
    if row["last_at"] != last or row["last_kind"] != lines[-1]["act_kind"]:
        yield Finding(row["code"], "its last act is not the last of its journal")


def _acts(connection: Connection) -> Iterator[Finding]:
    moved = select(_MOVE.c.act_id)
    said = select(_ENTRY.c.act_id)
    empty = select(_ACT.c.id, _ACT.c.kind).where(
        _ACT.c.id.not_in(moved),
        _ACT.c.id.not_in(said),
        _ACT.c.id.not_in(select(_OF_ORDER.c.act_id)),
        _ACT.c.kind.not_in(("open", "close", "reopen")),
    )
    for row in connection.execute(empty):
        yield Finding("", f"act {row.id} ({row.kind}) has no moves")


def _jobs(connection: Connection) -> Iterator[Finding]:
    newest = (
        select(func.max(_ACT.c.id).label("id"))
        .where(_ACT.c.kind.in_(("open", "close", "reopen")))
        .group_by(_ACT.c.job_id)
    )
    said = select(_JOB.c.code, _JOB.c.closed, _ACT.c.kind).join(_ACT, _ACT.c.job_id == _JOB.c.id)
    for row in connection.execute(said.where(_ACT.c.id.in_(newest))):
        if row.closed != (row.kind == "close"):
            yield Finding(row.code, "is not open or closed as its acts say")
