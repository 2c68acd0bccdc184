"""Printing: a roll loses a length and its leader; the print is a piece of its own."""

import re
from dataclasses import dataclass
from datetime import datetime

from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, MoveDraft, Piece
from stockroom.codes.own import Letter, grouped
from stockroom.errors import Code, Refusal, clean_text
from stockroom.film.kinds import Ink
from stockroom.work.flaw import turned_over
from stockroom.work.gates import free, more_than_nothing, open_job, serves, unreserved
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

PRINT, PRINTED = "print", "printed"
_TILE = re.compile(r"\s*0*([1-9]\d{0,2})\s*/\s*0*([1-9]\d{0,2})\s*", re.ASCII)


@dataclass(frozen=True, slots=True, kw_only=True)
class Print(Remake):
    """A length to print; its leader comes on top."""

    artwork: str | None = None
    tile: str | None = None
    leader_nm: int = 0
    ink: Ink = Ink.UNKNOWN
    warm_c: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintDone:
    """The print's own code and length, and what was taken for it."""

    act: Act
    code: str
    length_nm: int
    taken: Taken


def print_length(request: Print, *, book: Book, now: datetime) -> PrintDone:
    """Make a print of a length of blank media, or refuse and change nothing."""
    if request.leader_nm:
        more_than_nothing(request.leader_nm)
    more_than_nothing(request.length_nm)
    checked(request.core)
    _tile(request.tile)
    with writing(book, request, now=now, pieces=[request.piece], job=request.job) as pen:
        act = pen.repeated or _append(request, pen)
    born = next(move for move in act.moves if move.kind == PRINTED)
    return PrintDone(
        act=act, code=born.piece, length_nm=born.balance, taken=taken(act, request.piece)
    )


def _append(request: Print, pen: Pen) -> Act:
    piece = free(pen, request.piece)
    if not request.despite:
        unreserved(pen, piece, request.length_nm + request.leader_nm, request.job)
    job = open_job(pen) if request.job else None
    serves(piece, job)
    at = pen.when(pieces=[piece])
    of = parent(pen, piece, at)
    _refuse_unfit(of)
    refuse_longer(
        pen, piece, request.length_nm + request.leader_nm, request.waste_nm + request.leader_nm
    )
    refuse_stopped(piece, of.judgement, request.despite)
    making = Making(
        kind=PRINT,
        ended=PRINTED,
        length_nm=request.length_nm + request.leader_nm,
        waste_nm=request.waste_nm + request.leader_nm,
        across_nm=piece.state.width_nm or 0,
        facts={
            "length_nm": request.length_nm,
            "leader_nm": request.leader_nm,
            "despite": request.despite,
        },
    )
    given = give(pen, of, making)
    moves = (given.move, *given.rest, _born(request, pen, piece, given, at))
    return pen.append(ActDraft(kind=PRINT, at=at, moves=moves, job=job))


def _refuse_unfit(of: Parent) -> None:
    if not of.material.kind.is_printed_on:
        raise Refusal(
            Code.WRONG_KIND,
            f"{of.material.name} is {of.material.kind}, which is not printed on: "
            "take print-vinyl or calendered-vinyl.",
        )
    state = of.piece.state
    if state.printed is not None or state.is_laminated:
        was = "printed" if state.printed is not None else "laminated"
        raise Refusal(
            Code.ALREADY_THERE, f"{grouped(of.piece.code)} is {was} already: take blank film."
        )


def _born(request: Print, pen: Pen, piece: Piece, given: Given, at: datetime) -> MoveDraft:
    """The print: wound on its own core since today, with the film's lot, dates and value."""
    length_nm = request.length_nm - request.waste_nm
    outer_nm = piece.state.balance - request.leader_nm
    today = pen.shop.day_of(at).isoformat()
    sets = {
        **born_of(piece, piece.state.width_nm or 0, given.value_minor),
        **request.core.sets,
        "printed": today,
        "printed_by": at.isoformat(),
        "ink": request.ink.value,
        "artwork": request.artwork,
        "tile": _tile(request.tile),
        "job_id": pen.job.id if pen.job else None,
        "winding": None,
        "wound_since": today,
        "wound_days_before": 0,
        "wound_passed": None,
        "curl_at_nm": None,
        "windings": ended(
            piece.state, at, turned=True, left_nm=outer_nm, inner_nm=outer_nm - length_nm
        ),
        "flaws": turned_over(piece.state, length_nm, skipped_nm=request.leader_nm),
        **placed(request, pen),
    }
    return MoveDraft(
        code=pen.new_code(Letter.OFFCUT),
        kind=PRINTED,
        delta=length_nm,
        sets=sets,
        facts={"wound_warm_c": request.warm_c},
    )


def _tile(text: str | None) -> str | None:
    """A tile as 2/4: which one, and of how many."""
    if text is None:
        return None
    read = _TILE.fullmatch(text)
    if read is None or int(read[1]) > int(read[2]):
        raise Refusal(
            Code.BAD_NUMBER,
            f"'{clean_text(text, 40)}' is no tile: write which one and of how many, like 2/4.",
        )
    return f"{int(read[1])}/{int(read[2])}"
