"""Scrap: offcuts below the size that is kept go in the bin, many in one act, and nobody counts them."""

from dataclasses import dataclass
from datetime import datetime

from stockroom.books.catalog import materials
from stockroom.books.fold import State
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, Material, MoveDraft, Piece
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.film.limits import House
from stockroom.work.charging import area_left_mm2, cost_between
from stockroom.work.gates import here
from stockroom.work.reserved import reserved

BINNED = "scrap bin"


@dataclass(frozen=True, slots=True, kw_only=True)
class Scrap(Asked):
    """Offcuts that are not worth keeping."""

    pieces: tuple[str, ...]


def scrap(request: Scrap, *, book: Book, now: datetime) -> Act:
    """Drop offcuts in the bin; what was left of them is waste."""
    codes = tuple(dict.fromkeys(request.pieces))
    if not codes:
        raise Refusal(Code.BAD_USAGE, "Say which offcuts go in the bin: give their codes.")
    with writing(book, request, now=now, pieces=codes) as pen:
        return pen.repeated or _append(codes, pen)


def is_scrap(state: State, material: Material, house: House) -> bool:
    """Whether an offcut is below the size that is kept; what serves a job never is."""
    if state.form != "offcut" or state.job_id is not None:
        return False
    return not house.keeps(material.kind, state.width_nm or 0, state.balance)


def _append(codes: tuple[str, ...], pen: Pen) -> Act:
    pieces = [here(pen, code, "offcut") for code in codes]
    at = pen.when(pieces=pieces)
    known = materials(pen.connection, at)
    moves = tuple(_binned(pen, piece, known[piece.state.material_id]) for piece in pieces)
    return pen.append(ActDraft(kind="scrap", at=at, moves=moves))


def _binned(pen: Pen, piece: Piece, material: Material) -> MoveDraft:
    state = piece.state
    is_kept = bool(reserved(state, pen.shop.day_of(pen.now)))
    if is_kept or not is_scrap(state, material, pen.shop.house):
        why = "serves a job" if is_kept or state.job_id is not None else "is big enough to keep"
        raise Refusal(
            Code.NOT_SCRAP,
            f"{grouped(piece.code)} {why}: throw it away with `discard {piece.code} --why …`.",
        )
    return MoveDraft(
        code=piece.code,
        kind="scrap",
        delta=-state.balance,
        wasted_mm2=area_left_mm2(state),
        cost_minor=cost_between(state, state.balance, 0),
        sets={"ended": BINNED},
    )
