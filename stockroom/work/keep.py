"""What is done to a piece without taking film: put, hold, release, discard."""

from dataclasses import dataclass
from datetime import datetime

from stockroom.books.catalog import place_named
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, MoveDraft, Piece
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.work.charging import area_left_mm2, cost_between
from stockroom.work.gates import here, on_hand, unreserved

DISCARDED = "discarded"


@dataclass(frozen=True, slots=True, kw_only=True)
class Put(Asked):
    """A piece is put in a place."""

    piece: str
    place: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold(Asked):
    """Nobody may cut a piece until it is released."""

    piece: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Release(Asked):
    """A held piece may be cut again."""

    piece: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Discard(Asked):
    """A piece is thrown away; `despite`, though film of it is kept for a job."""

    piece: str
    why: str
    despite: str | None = None


def put(request: Put, *, book: Book, now: datetime) -> Act:
    """Say where a piece stands from now on."""
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        if pen.repeated:
            return pen.repeated
        place = place_named(pen.connection, request.place, pen.now)
        piece = here(pen, request.piece)
        return _append(
            pen, piece, MoveDraft(code=piece.code, kind="put", sets={"place_id": place.id})
        )


def hold(request: Hold, *, book: Book, now: datetime) -> Act:
    """Stop a piece, for a reason; a held piece cannot be taken, whatever is said."""
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        if pen.repeated:
            return pen.repeated
        piece = on_hand(pen.piece(request.piece))
        if piece.state.held is not None:
            raise Refusal(
                Code.ALREADY_THERE,
                f"{grouped(piece.code)} is held already ({piece.state.held}).",
            )
        why = reason_of(request.why)
        return _append(pen, piece, MoveDraft(code=piece.code, kind="hold", sets={"held": why}))


def release(request: Release, *, book: Book, now: datetime) -> Act:
    """Let a held piece be cut again, for a reason."""
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        if pen.repeated:
            return pen.repeated
        piece = on_hand(pen.piece(request.piece))
        if piece.state.held is None:
            raise Refusal(Code.NOT_HELD, f"{grouped(piece.code)} is not held.")
        move = MoveDraft(
            code=piece.code,
            kind="release",
            sets={"held": None},
            facts={"why": reason_of(request.why)},
        )
        return _append(pen, piece, move)


def discard(request: Discard, *, book: Book, now: datetime) -> Act:
    """Throw a piece away, for a reason; what was left of it is waste."""
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        if pen.repeated:
            return pen.repeated
        piece = on_hand(pen.piece(request.piece))
        if not request.despite:
            unreserved(pen, piece, piece.state.balance, None)
        move = MoveDraft(
            code=piece.code,
            kind="discard",
            delta=-piece.state.balance,
            wasted_mm2=area_left_mm2(piece.state),
            cost_minor=cost_between(piece.state, piece.state.balance, 0),
            sets={"ended": DISCARDED},
            facts={"why": reason_of(request.why)} | _despite(request),
        )
        return _append(pen, piece, move)


def _despite(request: Discard) -> dict[str, object]:
    """Why film that is kept for a job was thrown away; nothing where none was."""
    return {"despite": request.despite} if request.despite else {}


def _append(pen: Pen, piece: Piece, move: MoveDraft) -> Act:
    at = pen.when(pieces=[piece])
    return pen.append(ActDraft(kind=move.kind, at=at, moves=(move,)))


def reason_of(why: str) -> str:
    """The reason itself, which must be given."""
    if not why:
        raise Refusal(Code.BAD_USAGE, "A reason is needed: say why with --why.")
    return why
