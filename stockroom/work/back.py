"""Film and goods that come back from a job: onto the piece they never left, or as a new offcut."""

from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction

from stockroom.books.opening import Book
from stockroom.books.pen import UNDO, Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, Job, Move, MoveDraft, Piece
from stockroom.codes.own import Letter, grouped
from stockroom.errors import Code, Refusal
from stockroom.units import MM
from stockroom.units.shown import show_area, show_length, show_size
from stockroom.work.charging import area_between_mm2, area_mm2, cost_between
from stockroom.work.gates import FILM, here, more_than_nothing, of_form, open_job
from stockroom.work.offcuts import born_of
from stockroom.work.windings import ended

SEVERED = "severed"
CHARGING = ("cut", "take", "in", "back", SEVERED, "charge", "print", "laminate")
"""The kinds of move whose area and cost belong to the act's job; the others are nobody's."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Back(Asked):
    """What comes back of a piece: `amount` in nm or pieces, never severed; or a severed size."""

    piece: str
    job: str
    amount: int | None = None
    size: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CameBack:
    """The piece that now holds what came back, and how much it holds."""

    act: Act
    piece: str
    left: int
    cost_minor: int


def back(request: Back, *, book: Book, now: datetime) -> CameBack:
    """Take back at most what the job drew from the piece, or refuse and change nothing."""
    if (request.amount is None) == (request.size is None):
        raise Refusal(
            Code.BAD_USAGE, "Say how much comes back: a length or number, or the size of an offcut."
        )
    if request.size is not None:
        more_than_nothing(*request.size)
    elif not request.amount or request.amount < 0:
        more_than_nothing(0)
    with writing(book, request, now=now, pieces=[request.piece], job=request.job) as pen:
        act = pen.repeated or _append(request, pen)
    last = act.moves[-1]
    return CameBack(
        act=act,
        piece=last.piece,
        left=last.balance,
        cost_minor=sum(move.cost_minor for move in act.moves),
    )


def _append(request: Back, pen: Pen) -> Act:
    piece = pen.piece(request.piece)
    job = open_job(pen)
    at = pen.when(pieces=[piece])
    drawn = [move for move in _drawn(pen, piece, job) if move.kind in CHARGING]
    moves: tuple[MoveDraft, ...]
    if request.size is not None:
        of_form(piece, *FILM)
        moves = _severed(request.size, pen, piece, drawn, at)
    else:
        moves = (_joined(request.amount or 0, pen, here(pen, piece.code), drawn),)
    return pen.append(ActDraft(kind="back", at=at, moves=moves, job=job))


def _drawn(pen: Pen, piece: Piece, job: Job) -> list[Move]:
    return [
        move
        for act in pen.history(piece)
        if act.job == job.code and not act.is_reversed and act.kind != UNDO
        for move in act.moves_of(piece.code)
    ]


def _joined(amount: int, pen: Pen, piece: Piece, drawn: list[Move]) -> MoveDraft:
    state = piece.state
    if state.width_nm is None:
        most = -sum(move.delta for move in drawn)
        is_too_much, shown = amount > most, str(most)
    else:
        used_mm2 = sum(move.used_mm2 for move in drawn)
        is_too_much = area_mm2(state.width_nm, amount) > used_mm2 + _rounded(drawn)
        shown = show_length(max(used_mm2, 0) * MM * MM // state.width_nm, pen.shop.system)
    if is_too_much:
        raise Refusal(
            Code.NOT_DRAWN,
            f"The job drew {shown} from {grouped(piece.code)}: no more can come back.",
        )
    after = state.balance + amount
    return MoveDraft(
        code=piece.code,
        kind="back",
        delta=amount,
        used_mm2=area_between_mm2(state, state.balance, after),
        cost_minor=cost_between(state, state.balance, after),
    )


def _rounded(drawn: list[Move]) -> int:
    """By how much rounding can have made the areas too small: under a millimetre in each move."""
    return sum(move.used_mm2 != 0 for move in drawn)


def _severed(
    size: tuple[int, int], pen: Pen, piece: Piece, drawn: list[Move], at: datetime
) -> tuple[MoveDraft, MoveDraft]:
    area = area_mm2(*size)
    used = sum(move.used_mm2 for move in drawn)
    across_nm, left_nm = piece.state.width_nm or 0, piece.state.balance
    if area > used + _rounded(drawn) or size[0] > across_nm:
        raise Refusal(
            Code.NOT_DRAWN,
            f"{show_size(*size, pen.shop.system)} cannot come back: the job drew "
            f"{show_area(max(used, 0), pen.shop.system)} from {grouped(piece.code)}.",
        )
    area = min(area, used)
    paid = sum(move.cost_minor for move in drawn)
    value = round(Fraction(paid * area, used)) if used else 0
    return (
        MoveDraft(code=piece.code, kind=SEVERED, used_mm2=-area, kept_mm2=area, cost_minor=-value),
        MoveDraft(
            code=pen.new_code(Letter.OFFCUT),
            kind="keep",
            delta=size[1],
            sets={
                **born_of(piece, size[0], value if piece.state.cost_minor is not None else None),
                "windings": ended(  # it lay next to what is left
                    piece.state, at, left_nm=left_nm + size[1], inner_nm=left_nm
                ),
            },
        ),
    )
