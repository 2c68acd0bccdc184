"""Taking counted goods from a box."""

from dataclasses import dataclass
from datetime import datetime

from stockroom.books.catalog import material as material_of
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, MoveDraft
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.work.charging import cost_between
from stockroom.work.gates import free, more_than_nothing, open_job
from stockroom.work.reasons import REASONS
from stockroom.work.soundness import judgement_of, refuse_stopped, warning_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Take(Asked):
    """So many out of a box, for a job or for a reason without one."""

    piece: str
    number: int
    job: str | None = None
    reason: str | None = None
    despite: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """What is left in the box, and what the taking cost."""

    act: Act
    piece: str
    left: int
    cost_minor: int


def take(request: Take, *, book: Book, now: datetime) -> Taken:
    """Charge a number of goods, or refuse and change nothing."""
    if (request.job is None) == (request.reason is None) or (
        request.reason not in (None, *REASONS)
    ):
        raise Refusal(
            Code.BAD_USAGE,
            f"Goods are taken for a job or for a reason: give --job, or --for {'|'.join(REASONS)}.",
        )
    more_than_nothing(request.number, code=Code.BAD_NUMBER)
    with writing(book, request, now=now, pieces=[request.piece], job=request.job) as pen:
        act = pen.repeated or _append(request, pen)
    move = act.moves[0]
    return Taken(act=act, piece=move.piece, left=move.balance, cost_minor=move.cost_minor)


def _append(request: Take, pen: Pen) -> Act:
    box = free(pen, request.piece, "box")
    job = open_job(pen) if request.job else None
    at = pen.when(pieces=[box])
    material = material_of(pen.connection, box.state.material_id, at)
    judgement = judgement_of(pen, box, material, at)
    refuse_stopped(box, judgement, request.despite)
    after = box.state.balance - request.number
    if after < 0:
        raise Refusal(
            Code.TOO_MANY,
            f"{grouped(box.code)} holds {box.state.balance}: {request.number} cannot be taken; "
            "count it first.",
        )
    move = MoveDraft(
        code=box.code,
        kind="take",
        delta=-request.number,
        cost_minor=cost_between(box.state, box.state.balance, after),
        facts={
            "reason": request.reason,
            "despite": request.despite,
            "warning": warning_of(judgement),
        },
    )
    return pen.append(ActDraft(kind="take", at=at, moves=(move,), job=job))
