"""A cut somebody forgot to write, found after a count that has already seen it."""

from dataclasses import dataclass
from datetime import datetime

from stockroom.books.fold import GONE
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, MoveDraft, Piece
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.units.shown import show_length
from stockroom.work.charging import area_mm2, cost_between
from stockroom.work.gates import FILM, more_than_nothing, of_form, on_hand, open_job, serves

VARIANCE = "variance"


@dataclass(frozen=True, slots=True, kw_only=True)
class Charge(Asked):
    """A length that left for a job at `at`, before a later count."""

    piece: str
    length_nm: int
    job: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Charged:
    """What a late charge moved from variance to the job."""

    act: Act
    piece: str
    charged_mm2: int
    cost_minor: int


def charge(request: Charge, *, book: Book, now: datetime) -> Charged:
    """Charge a job late; the balance stays, for the count has seen it."""
    more_than_nothing(request.length_nm)
    with writing(book, request, now=now, pieces=[request.piece], job=request.job) as pen:
        act = pen.repeated or _append(request, pen)
    move = act.moves[0]
    return Charged(act=act, piece=move.piece, charged_mm2=move.used_mm2, cost_minor=move.cost_minor)


def _append(request: Charge, pen: Pen) -> Act:
    piece = of_form(pen.piece(request.piece), *FILM)
    if piece.state.ended == GONE:
        on_hand(piece)
    job = open_job(pen)
    serves(piece, job)
    if request.at is None:
        raise Refusal(Code.BAD_USAGE, "Say when the film was cut, with --at.")
    at = pen.when(pieces=[piece], late=True)
    _refuse_uncounted(pen, piece, at)
    state = piece.state
    if request.length_nm > state.full:
        raise Refusal(
            Code.TOO_LONG,
            f"{grouped(piece.code)} never held {show_length(request.length_nm, pen.shop.system)}.",
        )
    cost = cost_between(state, request.length_nm, 0)
    moves = (
        MoveDraft(
            code=piece.code,
            kind="charge",
            used_mm2=area_mm2(state.width_nm or 0, request.length_nm),
            cost_minor=cost,
            facts={"length_nm": request.length_nm},
        ),
        MoveDraft(code=piece.code, kind=VARIANCE, cost_minor=-cost),
    )
    return pen.append(ActDraft(kind="charge", at=at, moves=moves, job=job))


def _refuse_uncounted(pen: Pen, piece: Piece, at: datetime) -> None:
    history = [act for act in pen.history(piece) if not act.is_reversed]
    if at < history[0].at:
        raise Refusal(
            Code.TOO_EARLY, f"{grouped(piece.code)} was not here yet: it came later than that."
        )
    counts = ("count", "finished")
    if not any(act.kind in counts and act.at >= at for act in history):
        raise Refusal(
            Code.NOT_COUNTED,
            f"No count of {grouped(piece.code)} has seen this cut yet: write it as a cut now.",
        )
