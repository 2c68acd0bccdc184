"""Cutting as planned: every piece of a plan in one act, with its offcuts, waste and panels."""

from dataclasses import asdict, dataclass
from datetime import datetime

from stockroom.books.catalog import material as material_of
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, Move, MoveDraft
from stockroom.errors import Code, Refusal
from stockroom.work.cut import Cut, Film, PanelsCut, refuse_parts, taken
from stockroom.work.gates import free, open_job, serves, unreserved
from stockroom.work.planned import PlannedCut
from stockroom.work.reserve import as_planned
from stockroom.work.soundness import judgement_of, refuse_stopped


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPlan(Asked):
    """Cut these pieces for a job as they were planned."""

    job: str
    cuts: tuple[PlannedCut, ...]
    despite: str | None = None


@dataclass(frozen=True, slots=True)
class CutAsPlanned:
    """The act, and its moves by what they did: the cuts, and the offcuts that were kept."""

    act: Act
    cuts: tuple[Move, ...]
    offcuts: tuple[Move, ...]


def cut_plan(request: CutPlan, *, book: Book, now: datetime) -> CutAsPlanned:
    """Write all the cuts in one act, or refuse and change nothing."""
    if not request.cuts:
        raise Refusal(Code.BAD_USAGE, "The plan draws no film: there is nothing to cut.")
    codes = [cut.piece for cut in request.cuts]
    with writing(book, request, now=now, pieces=codes, job=request.job) as pen:
        act = pen.repeated or _append(request, pen)
    return CutAsPlanned(
        act=act,
        cuts=tuple(move for move in act.moves if move.kind == "cut"),
        offcuts=tuple(move for move in act.moves if move.kind == "keep"),
    )


def _append(request: CutPlan, pen: Pen) -> Act:
    job = open_job(pen)
    pieces = [as_planned(serves(free(pen, cut.piece), job), cut) for cut in request.cuts]
    at = pen.when(pieces=pieces)
    moves: list[MoveDraft] = []
    for piece, cut in zip(pieces, request.cuts, strict=True):
        if not request.despite:
            unreserved(pen, piece, cut.length_nm, job.code)
        material = material_of(pen.connection, piece.state.material_id, at)
        judgement = judgement_of(pen, piece, material, at)
        refuse_stopped(piece, judgement, request.despite)
        asked = Cut(
            request=request.request,
            operator=request.operator,
            piece=piece.code,
            length_nm=cut.length_nm,
            job=job.code,
            offcuts=cut.offcuts,
            despite=request.despite,
        )
        refuse_parts(asked, pen, piece)
        made = PanelsCut(cut.panels, cut.panels_mm2, asdict(cut))
        moves += taken(asked, pen, Film(piece, material, judgement), at, panels=made)
    return pen.append(ActDraft(kind="cut", at=at, moves=tuple(moves), job=job))
