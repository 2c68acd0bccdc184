"""Undo: a whole act is reversed by another one; nothing is rubbed out."""

from dataclasses import dataclass
from datetime import datetime

from stockroom.books.journal import acts
from stockroom.books.opening import Book
from stockroom.books.orders import close_as_said, lock, orders_of_act
from stockroom.books.pen import UNDO, Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, Job, MoveDraft
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.work.gates import open_job

UNDONE = "undone"
"""The fact of each move of an undo that names the kind of act it takes back; older ones have none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Undo(Asked):
    """The last act of a piece is to be reversed; `act` says which one it is expected to be."""

    piece: str
    act: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Undone:
    """The act that was reversed, and the one that did it."""

    act: Act
    undone: int
    piece: str
    left: int


def undo(request: Undo, *, book: Book, now: datetime) -> Undone:
    """Reverse the newest act of a piece that still stands, with everything it did to other pieces."""
    with book.reading() as connection:
        seen = last_standing(acts(connection, piece=request.piece))
    touched = {request.piece, *(move.piece for move in seen.moves)} if seen else {request.piece}
    job = seen.job if seen else None
    with writing(book, request, now=now, pieces=sorted(touched), job=job) as pen:
        act = pen.repeated or _append(request, pen, seen)
    return Undone(
        act=act,
        undone=act.reverses or 0,
        piece=request.piece,
        left=act.moves_of(request.piece)[-1].balance,
    )


def last_standing(history: tuple[Act, ...]) -> Act | None:
    """The newest act, of a history newest first, that is neither reversed nor an undo."""
    return next((act for act in history if not act.is_reversed and act.kind != UNDO), None)


def _append(request: Undo, pen: Pen, seen: Act | None) -> Act:
    piece = pen.piece(request.piece)
    last = last_standing(pen.history(piece)[::-1])
    if last is None:
        raise Refusal(Code.NOTHING_TO_UNDO, f"Nothing is left to undo on {grouped(piece.code)}.")
    if seen is None or seen.id != last.id or request.act not in (None, last.id):
        raise Refusal(
            Code.LATER_ACT,
            f"The last act of {grouped(piece.code)} is now a {last.kind}: "
            "look again before you undo it.",
        )
    codes = tuple(dict.fromkeys(move.piece for move in last.moves))
    for code in codes:
        _refuse_later(pen, code, last)
    brought = orders_of_act(pen.connection, last.id)
    lock(pen, brought)
    at = pen.when(pieces=[pen.piece(code) for code in codes])
    moves = tuple(
        MoveDraft(
            code=move.piece,
            kind=UNDO,
            delta=-move.delta,
            used_mm2=-move.used_mm2,
            wasted_mm2=-move.wasted_mm2,
            kept_mm2=-move.kept_mm2,
            cost_minor=-move.cost_minor,
            facts={UNDONE: last.kind},
        )
        for move in reversed(last.moves)
    )
    job: Job | None = open_job(pen) if last.job else None
    act = pen.append(ActDraft(kind=UNDO, at=at, moves=moves, job=job, reverses=last.id))
    for order in brought:
        close_as_said(pen.connection, order)
    return act


def _refuse_later(pen: Pen, code: str, last: Act) -> None:
    newest = last_standing(pen.history(pen.piece(code))[::-1])
    if newest is not None and newest.id != last.id:
        raise Refusal(
            Code.LATER_ACT,
            f"{grouped(code)} has a later act ({newest.kind}): undo that one first.",
        )
