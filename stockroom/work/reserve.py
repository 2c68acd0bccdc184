"""Reserving: film of a plan is kept for its job, with the cuts it is meant for, until a day."""

from dataclasses import asdict, dataclass
from datetime import date, datetime, timedelta

from stockroom.books.catalog import material as material_of
from stockroom.books.journal import acts
from stockroom.books.opening import Book
from stockroom.books.pen import UNDO, Pen, writing
from stockroom.books.pieces import reserved_pieces
from stockroom.books.values import Act, ActDraft, Asked, Job, MoveDraft, Piece
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.film.dates import parse_partial_date
from stockroom.work.charging import divide
from stockroom.work.gates import free, open_job, serves, unreserved
from stockroom.work.offcuts import rest_of
from stockroom.work.panel_cost import EXPECTED
from stockroom.work.planned import PLAN, PlannedCut, cuts_in
from stockroom.work.reserved import (
    RESERVE,
    UNRESERVE,
    Reserved,
    all_reserved,
    ever_for,
    let_go,
    reserved_for,
    written,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reserve(Asked):
    """Keep film for a job, up to and with a day; what was kept for it before is let go."""

    job: str
    cuts: tuple[PlannedCut, ...]
    until: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Unreserve(Asked):
    """Let the film go that is kept for a job."""

    job: str


@dataclass(frozen=True, slots=True)
class ReservedFilm:
    """The act, the day, and what is kept."""

    act: Act
    until: str
    cuts: tuple[PlannedCut, ...]


def reserve(request: Reserve, *, book: Book, now: datetime) -> ReservedFilm:
    """Keep film for a job, or refuse and change nothing: each piece must be as it was planned."""
    if not request.cuts:
        raise Refusal(Code.BAD_USAGE, "The plan draws no film: there is nothing to reserve.")
    before = _reserved_now(book, request.job)
    wanted = tuple(cut.piece for cut in request.cuts)
    with writing(book, request, now=now, pieces=[*wanted, *before], job=request.job) as pen:
        act = pen.repeated or _append(request, pen, before)
    kept = [move for move in act.moves if move.kind == RESERVE]
    return ReservedFilm(
        act=act,
        until=str(kept[0].facts["until"]),
        cuts=cuts_in(act),
    )


def unreserve(request: Unreserve, *, book: Book, now: datetime) -> Act:
    """Let film go; a job for which none is kept is refused."""
    before = _reserved_now(book, request.job)
    with writing(book, request, now=now, pieces=before, job=request.job) as pen:
        if pen.repeated is not None:
            return pen.repeated
        job = open_job(pen)
        if not before:
            raise Refusal(Code.NOT_RESERVED, f"No film is kept for job {grouped(job.code)}.")
        at = pen.when(pieces=[pen.piece(code) for code in before])
        return pen.append(
            ActDraft(kind=UNRESERVE, at=at, moves=tuple(let_go(pen, before, job.code)), job=job)
        )


def reserved_cuts(book: Book, job: str) -> tuple[PlannedCut, ...]:
    """What film is kept for, of the pieces on which a job still has a reservation."""
    with book.reading() as connection:
        still = set(reserved_for(reserved_pieces(connection), job))
        history = acts(connection, job=job, kind=RESERVE) if still else ()
    newest = next((act for act in history if not act.is_reversed and act.kind != UNDO), None)
    if newest is None:
        return ()
    return tuple(cut for cut in cuts_in(newest) if cut.piece in still)


def as_planned(piece: Piece, cut: PlannedCut) -> Piece:
    """The piece itself, which must hold what it held when it was planned."""
    if piece.state.balance != cut.balance_nm:
        raise Refusal(
            Code.PLAN_STALE,
            f"{grouped(piece.code)} has changed since it was planned: plan the job again.",
        )
    return piece


def _append(request: Reserve, pen: Pen, before: tuple[str, ...]) -> Act:
    job = open_job(pen)
    pieces = [as_planned(serves(free(pen, cut.piece), job), cut) for cut in request.cuts]
    for piece, cut in zip(pieces, request.cuts, strict=True):
        unreserved(pen, piece, cut.length_nm, job.code)
    touched = [*pieces, *(pen.piece(code) for code in before)]
    at = pen.when(pieces=touched)
    until = (request.until or kept_until(job, pen)).isoformat()
    left = tuple(code for code in before if code not in {piece.code for piece in pieces})
    kept = (
        _kept(pen, piece, cut, job, until) for piece, cut in zip(pieces, request.cuts, strict=True)
    )
    moves = (*kept, *let_go(pen, left, job.code))
    return pen.append(ActDraft(kind=RESERVE, at=at, moves=moves, job=job))


def _kept(pen: Pen, piece: Piece, cut: PlannedCut, job: Job, until: str) -> MoveDraft:
    others = [one for one in all_reserved(piece.state) if one.job != job.code]
    mine = Reserved(job.code, cut.length_nm, until)
    return MoveDraft(
        code=piece.code,
        kind=RESERVE,
        sets={"reserved": written([*others, mine])},
        facts={"until": until, PLAN: asdict(cut), EXPECTED: _cost(pen, piece, cut)},
    )


def _cost(pen: Pen, piece: Piece, cut: PlannedCut) -> int | None:
    """What the film of a cut will cost its job; None where it has no price."""
    if piece.state.cost_minor is None:
        return None
    material = material_of(pen.connection, piece.state.material_id, pen.now)
    rest = rest_of(pen, piece, material, piece.state.balance - cut.length_nm)
    parts = divide(piece.state, length_nm=cut.length_nm, waste_nm=0, offcuts=cut.offcuts, rest=rest)
    return parts.paid_minor


def kept_until(job: Job, pen: Pen) -> date:
    """The day the job is for, and at least as many days ahead as the house keeps film."""
    today = pen.shop.day_of(pen.now)
    usual = today + timedelta(days=pen.shop.house.numbers["reserve.days"])
    return usual if job.on_day is None else max(usual, parse_partial_date(job.on_day).last)


def _reserved_now(book: Book, job: str) -> tuple[str, ...]:
    with book.reading() as connection:
        return ever_for(reserved_pieces(connection), job)
