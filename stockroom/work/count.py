"""Counting: a measurement confirms the books or corrects them; a bare core ends a roll."""

from dataclasses import asdict, dataclass
from datetime import datetime

from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, MoveDraft, Piece
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.work.charging import cost_between
from stockroom.work.gates import here, on_hand
from stockroom.work.measuring import (
    Found,
    Measuring,
    amount_of,
    is_far_above,
    measured,
    one_measurement,
)

FINISHED = "finished"


@dataclass(frozen=True, slots=True, kw_only=True)
class Count(Measuring):
    """One measurement of a piece; `replace` corrects the books even where it allows them."""

    replace: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish(Asked):
    """The core is bare, or the box is empty."""

    piece: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """What a count said: the balance before and now, the band of the measurement."""

    act: Act
    piece: str
    before: int
    left: int
    low: int
    high: int
    confirmed: bool


def count(request: Count, *, book: Book, now: datetime) -> Counted:
    """Confirm the books where the measurement allows them, or correct them."""
    one_measurement(request)
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        act = pen.repeated or _append(request, pen)
    return counted(act)


def finish(request: Finish, *, book: Book, now: datetime) -> Counted:
    """End a roll whose core is bare, or a box that is empty; what the books still had of it is variance."""
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        act = pen.repeated or _finished(request, pen)
    move = act.moves[0]
    return Counted(
        act=act, piece=move.piece, before=-move.delta, left=0, low=0, high=0, confirmed=False
    )


def counted(act: Act) -> Counted:
    """What an act of counting said."""
    move = act.moves[0]
    return Counted(
        act=act,
        piece=move.piece,
        before=move.balance - move.delta,
        left=move.balance,
        low=_whole(move.facts["low"]),
        high=_whole(move.facts["high"]),
        confirmed=move.delta == 0,
    )


def believable(pen: Pen, piece: Piece, found: Found) -> Found:
    """The measurement itself, which must not be far above what the piece came in with."""
    if is_far_above(found.low, piece):
        raise Refusal(
            Code.TOO_MANY if found.by == "number" else Code.TOO_LONG,
            f"{grouped(piece.code)} came in with {amount_of(piece, piece.state.full, pen)}: "
            f"{amount_of(piece, found.found, pen)} is hard to believe; measure again, "
            "or write it with --replace.",
        )
    return found


def corrected(piece: Piece, found: Found, after: int) -> MoveDraft:
    """The move by which a count confirms the books or corrects them; it settles a recount."""
    return MoveDraft(
        code=piece.code,
        kind="count",
        delta=after - piece.state.balance,
        cost_minor=cost_between(piece.state, piece.state.balance, after),
        sets={} if piece.state.recount is None else {"recount": None},
        facts=asdict(found),
    )


def _append(request: Count, pen: Pen) -> Act:
    piece = on_hand(pen.piece(request.piece))
    at = pen.when(pieces=[piece])
    found = measured(request, pen, piece, at)
    if not request.replace:
        believable(pen, piece, found)
    is_held_up = found.allows(piece.state.balance) and not request.replace
    after = piece.state.balance if is_held_up else found.found
    return pen.append(ActDraft(kind="count", at=at, moves=(corrected(piece, found, after),)))


def _finished(request: Finish, pen: Pen) -> Act:
    piece = here(pen, request.piece)
    _refuse_sheet(piece)
    at = pen.when(pieces=[piece])
    move = MoveDraft(
        code=piece.code,
        kind="finished",
        delta=-piece.state.balance,
        cost_minor=cost_between(piece.state, piece.state.balance, 0),
        sets={"ended": FINISHED},
    )
    return pen.append(ActDraft(kind="finished", at=at, moves=(move,)))


def _refuse_sheet(piece: Piece) -> None:
    """Refuse an offcut that lies flat; a box may be empty, and a roll may be used up lying flat."""
    if piece.state.form == "offcut" and not piece.state.is_wound:
        raise Refusal(
            Code.WRONG_FORM,
            f"{grouped(piece.code)} lies flat and has no core: cut what was used of it, "
            f"or throw it away with `discard {piece.code} --why …`.",
        )


def _whole(value: object) -> int:
    if not isinstance(value, int):
        raise TypeError("a measured length is a whole number of nanometres")
    return value
