"""Away: a whole piece goes to a van or a site; what is less when it comes in again was used."""

from dataclasses import dataclass
from datetime import UTC, datetime

from stockroom.books.catalog import material as material_of
from stockroom.books.catalog import name_key, places
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, MoveDraft, Piece
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.work.charging import divide
from stockroom.work.gates import not_held, on_hand, open_job, serves, unreserved
from stockroom.work.measuring import Measuring, amount_of, measured, one_measurement
from stockroom.work.offcuts import CUT_UP, kept_rest, rest_of
from stockroom.work.reasons import refuse_reason
from stockroom.work.soundness import judgement_of, refuse_stopped, warning_of

OUT, IN = "out", "in"
FOR_JOB = "for_job"
"""The fact of a way out that says for which job it was."""
HERE = {"out_to": None, "out_since": None, "out_by": None}


@dataclass(frozen=True, slots=True, kw_only=True)
class GoOut(Asked):
    """A whole piece goes to a van or a site, with somebody."""

    piece: str
    to: str
    taker: str = ""
    """Who has it; else who asks."""
    despite: str | None = None
    job: str | None = None
    """The job it goes out for; what is kept for that one is no hindrance."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ComeIn(Measuring):
    """A piece is here again: as it went, or as one measurement finds it.

    What is less was used for the job, or for the reason. `replace` believes the measurement even
    where it allows that nothing was used.
    """

    job: str | None = None
    reason: str | None = None
    replace: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class CameIn:
    """What was used of a piece while it was away, and what is left of it."""

    act: Act
    piece: str
    before: int
    left: int
    rest: tuple[str, ...]
    """The new code of what is left of an offcut."""
    used_mm2: int
    cost_minor: int


def go_out(request: GoOut, *, book: Book, now: datetime) -> Act:
    """Say where a piece is and who has it; nobody can take of it until it is in again."""
    if not request.to:
        raise Refusal(Code.BAD_USAGE, "Say where it goes, with --to: a van or a site.")
    with writing(book, request, now=now, pieces=[request.piece], job=request.job) as pen:
        return pen.repeated or _went(request, pen)


def out_for_job(act: Act) -> str | None:
    """The job for which an act took a piece out, if it was for one."""
    job = act.moves[0].facts.get(FOR_JOB)
    return job if isinstance(job, str) else None


def come_in(request: ComeIn, *, book: Book, now: datetime) -> CameIn:
    """Take a piece in, and charge what was used of it."""
    if request.given:
        one_measurement(request)
    if request.job is not None and request.reason is not None:
        raise Refusal(Code.BAD_USAGE, "It was used for a job or for a reason: give one of the two.")
    refuse_reason(request.reason)
    with writing(book, request, now=now, pieces=[request.piece], job=request.job) as pen:
        act = pen.repeated or _came(request, pen)
    move = act.moves[0]
    return CameIn(
        act=act,
        piece=move.piece,
        before=move.balance - move.delta,
        left=act.moves[-1].balance,
        rest=tuple(one.piece for one in act.moves[1:]),
        used_mm2=move.used_mm2,
        cost_minor=move.cost_minor,
    )


def _went(request: GoOut, pen: Pen) -> Act:
    piece = not_held(on_hand(pen.piece(request.piece)))
    if piece.state.out_to is not None:
        raise Refusal(
            Code.ALREADY_THERE, f"{grouped(piece.code)} is out already, with {piece.state.out_to}."
        )
    at = pen.when(pieces=[piece])
    material = material_of(pen.connection, piece.state.material_id, at)
    judgement = judgement_of(pen, piece, material, at)
    refuse_stopped(piece, judgement, request.despite)
    job = open_job(pen).code if pen.job else None
    if not request.despite:
        unreserved(pen, piece, piece.state.balance, job)
    move = MoveDraft(
        code=piece.code,
        kind=OUT,
        sets={
            "out_to": _named(request.to, pen),
            "out_since": at.astimezone(UTC).isoformat(),
            "out_by": request.taker or request.operator,
        },
        facts={"despite": request.despite, "warning": warning_of(judgement), FOR_JOB: job},
    )
    return pen.append(ActDraft(kind=OUT, at=at, moves=(move,)))


def _named(to: str, pen: Pen) -> str:
    """Where it goes, by the name of a place if it is one."""
    key = name_key(to)
    known = places(pen.connection, pen.now).values()
    return next((one.name for one in known if key in (name_key(one.name), one.code.casefold())), to)


def _came(request: ComeIn, pen: Pen) -> Act:
    piece = on_hand(pen.piece(request.piece))
    if piece.state.out_to is None:
        raise Refusal(
            Code.NOT_OUT, f"{grouped(piece.code)} is not out: what left it here is a cut."
        )
    at = pen.when(pieces=[piece])
    left = _left(request, pen, piece, at)
    if left == piece.state.balance:
        move = MoveDraft(code=piece.code, kind=IN, sets=HERE, facts=_facts(request, piece, left))
        return pen.append(ActDraft(kind=IN, at=at, moves=(move,)))
    job = open_job(pen) if request.job else None
    if job is None and request.reason is None:
        used = amount_of(piece, piece.state.balance - left, pen)
        raise Refusal(
            Code.BAD_USAGE, f"{used} were used: say for which job, with --job, or why, with --for."
        )
    serves(piece, job)
    return pen.append(ActDraft(kind=IN, at=at, moves=_used(request, pen, piece, left, at), job=job))


def _left(request: ComeIn, pen: Pen, piece: Piece, at: datetime) -> int:
    """How much came in; a measurement that allows all that went out says that nothing was used."""
    went = piece.state.balance
    if not request.given:
        return went
    found = measured(request, pen, piece, at)
    if found.allows(went) and not request.replace:
        return went
    if found.found > went:
        raise Refusal(
            Code.TOO_MANY if found.by == "number" else Code.TOO_LONG,
            f"{amount_of(piece, found.found, pen)} of {grouped(piece.code)} came in and "
            f"{amount_of(piece, went, pen)} went out: measure again, or take it in as it went "
            "and count it.",
        )
    return found.found


def _used(
    request: ComeIn, pen: Pen, piece: Piece, left: int, at: datetime
) -> tuple[MoveDraft, ...]:
    """What leaves the piece, and the new code of what is left of an offcut, for its label says its size."""
    state = piece.state
    rest: tuple[tuple[int, int], ...] = ()
    if state.form == "offcut":
        material = material_of(pen.connection, state.material_id, at)
        rest = rest_of(pen, piece, material, left)
    parts = divide(state, length_nm=state.balance - left, waste_nm=0, offcuts=(), rest=rest)
    taken = MoveDraft(
        code=piece.code,
        kind=IN,
        delta=-parts.leaves_nm,
        used_mm2=parts.used_mm2,
        wasted_mm2=parts.wasted_mm2,
        kept_mm2=parts.kept_mm2,
        cost_minor=parts.paid_minor,
        sets=HERE | ({"ended": CUT_UP} if state.form == "offcut" else {}),
        facts=_facts(request, piece, left),
    )
    return (taken, *kept_rest(pen, piece, rest, parts.values))


def _facts(request: ComeIn, piece: Piece, left: int) -> dict[str, object]:
    return {
        "from": piece.state.out_to,
        "used": piece.state.balance - left,
        "reason": request.reason,
    }
