"""Laminating: two films become one piece, which is as old as the older of them."""

from dataclasses import dataclass
from datetime import date, datetime

from stockroom.books.fold import State
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.pieces import standing
from stockroom.books.values import Act, ActDraft, Move, MoveDraft
from stockroom.codes.own import Letter, grouped
from stockroom.errors import Code, Refusal
from stockroom.film.dates import parse_partial_date
from stockroom.film.roll import applied_layers
from stockroom.units import UM
from stockroom.units.shown import show_width
from stockroom.work.charging import area_mm2
from stockroom.work.flaw import together, turned_over
from stockroom.work.gates import free, open_job, serves, unreserved
from stockroom.work.layers import layers_of, layers_text
from stockroom.work.making import (
    Given,
    Making,
    Parent,
    Remake,
    Taken,
    give,
    parent,
    placed,
    refuse_longer,
    taken,
)
from stockroom.work.offcuts import born_of
from stockroom.work.soundness import refuse_stopped
from stockroom.work.winding import checked
from stockroom.work.windings import ended

LAMINATE, LAMINATED = "laminate", "laminated"
_DATES = ("made", "shipped", "received", "shelf_passed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Laminate(Remake):
    """A length of film, printed or not, and the film that is laid over it."""

    over: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LaminateDone:
    """The laminated piece's own code and length, and what was taken of both films."""

    act: Act
    code: str
    length_nm: int
    film: Taken
    over: Taken


@dataclass(frozen=True, slots=True)
class _Two:
    """The film below and the one laid over it."""

    film: Parent
    over: Parent


def laminate(request: Laminate, *, book: Book, now: datetime) -> LaminateDone:
    """Make one piece of two films, or refuse and change nothing."""
    checked(request.core)
    if request.piece == request.over:
        raise Refusal(Code.BAD_USAGE, "A piece is not laid over itself: name the laminate, too.")
    job = request.job or _own_job(book, request.piece, now)
    pieces = [request.piece, request.over]
    with writing(book, request, now=now, pieces=pieces, job=job) as pen:
        act = pen.repeated or _append(request, pen)
    born = next(move for move in act.moves if move.kind == LAMINATED)
    return LaminateDone(
        act=act,
        code=born.piece,
        length_nm=born.balance,
        film=taken(act, request.piece),
        over=taken(act, request.over),
    )


def laid_over_mm2(act: Act, move: Move) -> int:
    """The area of a piece that was laid over another film by this move; of any other move none."""
    if move.kind != LAMINATE:
        return 0
    born = next(one for one in act.moves if one.kind == LAMINATED)
    if born.sets["parent"] == move.piece:
        return 0
    across_nm = born.sets["width_nm"]
    return area_mm2(across_nm, born.delta) if isinstance(across_nm, int) else 0


def _own_job(book: Book, code: str, now: datetime) -> str | None:
    """The job of a print, which pays for its lamination; a piece never changes it."""
    with book.reading() as connection:
        job = standing(connection, code, now).job
    return None if job is None else job.code


def _append(request: Laminate, pen: Pen) -> Act:
    pieces = [free(pen, code) for code in (request.piece, request.over)]
    if not request.despite:
        for piece in pieces:
            unreserved(pen, piece, request.length_nm, pen.job.code if pen.job else None)
    job = open_job(pen) if pen.job else None
    at = pen.when(pieces=pieces)
    two = _Two(*(parent(pen, serves(piece, job), at) for piece in pieces))
    _refuse_unfit(two)
    _refuse_narrower(pen, two)
    for one in (two.film, two.over):
        refuse_longer(pen, one.piece, request.length_nm, request.waste_nm)
        refuse_stopped(one.piece, one.judgement, request.despite)
    making = Making(
        kind=LAMINATE,
        ended=LAMINATED,
        length_nm=request.length_nm,
        waste_nm=request.waste_nm,
        across_nm=two.film.piece.state.width_nm or 0,
        facts={"length_nm": request.length_nm, "despite": request.despite},
    )
    film, over = give(pen, two.film, making), give(pen, two.over, making)
    born = _born(request, pen, two, (film, over), at)
    moves = (film.move, over.move, *film.rest, *over.rest, born)
    return pen.append(ActDraft(kind=LAMINATE, at=at, moves=moves, job=job))


def _refuse_unfit(two: _Two) -> None:
    over = two.over
    if not over.material.kind.is_laid_over or over.piece.state.printed is not None:
        raise Refusal(
            Code.WRONG_KIND,
            f"{grouped(over.piece.code)} is not laid over other film: "
            "take laminate or protective-film, unprinted.",
        )
    for one in (two.film, two.over):
        if one.piece.state.is_laminated:
            raise Refusal(Code.ALREADY_THERE, f"{grouped(one.piece.code)} is laminated already.")


def _refuse_narrower(pen: Pen, two: _Two) -> None:
    film, over = (one.piece for one in (two.film, two.over))
    across, covered = film.state.width_nm or 0, over.state.width_nm or 0
    if covered < across:
        system = pen.shop.system
        raise Refusal(
            Code.TOO_NARROW,
            f"{grouped(over.code)} is {show_width(covered, system)} wide and "
            f"{grouped(film.code)} {show_width(across, system)}: take a laminate as wide.",
        )


def _born(
    request: Laminate, pen: Pen, two: _Two, given: tuple[Given, Given], at: datetime
) -> MoveDraft:
    """The laminated piece: the print it was, both lots, both films, the older one's dates."""
    film, over = two.film.piece, two.over.piece
    length_nm = request.length_nm - request.waste_nm
    values = [one.value_minor for one in given if one.value_minor is not None]
    is_treated = film.state.printed is not None
    sets: dict[str, object] = {
        **born_of(film, film.state.width_nm or 0, sum(values) if values else None),
        **request.core.sets,
        **_dates(two),
        **_films(two),
        "is_laminated": True,
        "laminate_lot": over.state.lot,
        "winding": None,
        "wound_since": pen.shop.day_of(at).isoformat(),
        "wound_days_before": (two.film.judgement.wound_days or 0) if is_treated else 0,
        "wound_passed": None,
        "curl_at_nm": None,
        "windings": ended(film.state, at, turned=True, inner_nm=film.state.balance - length_nm),
        "flaws": together(*(turned_over(one.state, length_nm) for one in (film, over))),
        **placed(request, pen),
    }
    if is_treated:
        sets["job_id"] = pen.job.id if pen.job else None
    code = pen.new_code(Letter.OFFCUT)
    return MoveDraft(code=code, kind=LAMINATED, delta=length_nm, sets=sets)


def _dates(two: _Two) -> dict[str, object]:
    """The dates, and the passed trial, of the older of both, as the film's maker counts."""
    counted_from = two.film.material.counted_from
    film, over = two.film.piece.state, two.over.piece.state
    older = over if _start(over, counted_from) < _start(film, counted_from) else film
    return {name: getattr(older, name) for name in _DATES}


def _start(state: State, counted_from: str) -> date:
    known = getattr(state, counted_from) or state.made or state.shipped or state.received
    return parse_partial_date(known).first


def _films(two: _Two) -> dict[str, object]:
    """Thickness and layers of both together, as far as they are known; the laminate's liner is gone."""
    film, over = two.film.piece.state, two.over.piece.state
    applied_nm = two.over.material.applied_nm
    above_nm, below_nm = applied_nm or over.thickness_nm, film.thickness_nm
    below = layers_of(film, two.film.material)
    above = applied_layers(layers_of(over, two.over.material), applied_nm and applied_nm / UM)
    return {
        "thickness_nm": None if above_nm is None or below_nm is None else above_nm + below_nm,
        "layers": layers_text((*above, *below) if above and below else ()),
    }
