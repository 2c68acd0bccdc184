"""A recall: all pieces of a lot are held at once, offcuts, prints and laminates too, and released."""

from collections.abc import Callable, Generator, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime

from stockroom.books.catalog import material_named, name_key
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.pieces import standings
from stockroom.books.values import Act, ActDraft, Asked, MoveDraft, Piece
from stockroom.errors import Code, Refusal
from stockroom.work.keep import reason_of

_BETWEEN = "; "


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldLot(Asked):
    """Nobody may use anything of a lot, of one material or of any."""

    lot: str
    why: str
    material: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleaseLot(Asked):
    """What was held of a lot may be used again; what was held for itself stays held."""

    lot: str
    why: str
    material: str | None = None


Lot = HoldLot | ReleaseLot


def hold_lot(request: HoldLot, *, book: Book, now: datetime) -> Act:
    """Hold every piece of a lot, wherever it is; an unknown lot matches nothing."""
    with _writing_on(request, book, now) as pen:
        return pen.repeated or _append(request, pen, "hold", _held)


def release_lot(request: ReleaseLot, *, book: Book, now: datetime) -> Act:
    """Release every piece that was held with its lot."""
    with _writing_on(request, book, now) as pen:
        return pen.repeated or _append(request, pen, "release", _released)


@contextmanager
def _writing_on(request: Lot, book: Book, now: datetime) -> Generator[Pen, None, None]:
    """The pieces of a lot, locked; what was cut from them meanwhile too."""
    if not request.lot:
        raise Refusal(Code.BAD_USAGE, "Say which lot, with --lot; an unknown lot matches nothing.")
    reason_of(request.why)
    with writing(book, request, now=now) as pen:
        if not pen.repeated:
            locked: set[str] = set()
            while more := set(_codes(request, pen)) - locked:
                pen.lock_pieces(more)
                locked |= more
        yield pen


def _codes(request: Lot, pen: Pen) -> Iterator[str]:
    key = name_key(request.lot)
    material_id = None
    if request.material:
        material_id = material_named(pen.connection, request.material, pen.now).id
    for one in standings(pen.connection, pen.now):
        state = one.state
        lots = {name_key(lot) for lot in (state.lot, state.laminate_lot) if lot}
        if key in lots and material_id in (None, state.material_id):
            yield one.code


Change = Callable[[Lot, Piece], MoveDraft | None]


def _append(request: Lot, pen: Pen, kind: str, change: Change) -> Act:
    codes = list(_codes(request, pen))
    if not codes:
        raise Refusal(Code.NO_LOT, f"No piece on hand is of lot {request.lot}: look at the label.")
    pieces = [pen.piece(code) for code in codes]
    moves = tuple(move for piece in pieces if (move := change(request, piece)))
    if not moves:
        state = "held with its lot already" if kind == "hold" else "held with its lot"
        every = "Every piece" if kind == "hold" else "No piece"
        code = Code.ALREADY_THERE if kind == "hold" else Code.NOT_HELD
        raise Refusal(code, f"{every} of lot {request.lot} is {state}.")
    touched = [pen.piece(move.code) for move in moves]
    return pen.append(ActDraft(kind=kind, at=pen.when(pieces=touched), moves=moves))


def _held(request: Lot, piece: Piece) -> MoveDraft | None:
    """The hold beside an earlier one, whose reason is not painted over."""
    reasons = _reasons(piece)
    if any(_is_of(request.lot, one) for one in reasons):
        return None
    why = request.why.replace(_BETWEEN, ", ")
    return _move(request, piece, "hold", [*reasons, f"{_of(request.lot)}{why}"])


def _released(request: Lot, piece: Piece) -> MoveDraft | None:
    """What is left of the reasons when that of the lot is gone."""
    reasons = _reasons(piece)
    others = [one for one in reasons if not _is_of(request.lot, one)]
    return None if others == reasons else _move(request, piece, "release", others)


def _reasons(piece: Piece) -> list[str]:
    held = piece.state.held
    return [] if held is None else held.split(_BETWEEN)


def _of(lot: str) -> str:
    return f"lot {lot}: "


def _is_of(lot: str, reason: str) -> bool:
    return reason.casefold().startswith(_of(lot).casefold())


def _move(request: Lot, piece: Piece, kind: str, reasons: list[str]) -> MoveDraft:
    held = _BETWEEN.join(reasons) or None
    facts = {"lot": request.lot, "why": request.why}
    return MoveDraft(code=piece.code, kind=kind, sets={"held": held}, facts=facts)
