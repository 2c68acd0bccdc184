"""Cutting: a length leaves a piece; waste and offcuts are parts of it, the rest is charged."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import datetime
from itertools import chain

from stockroom.books.catalog import material as material_of
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, Material, MoveDraft, Piece
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.film.verdict import Judgement, Verdict
from stockroom.units.shown import show_length, show_size
from stockroom.work.charging import cost_between, divide
from stockroom.work.flaw import Flaw, flaws_ahead, flaws_in
from stockroom.work.gates import free, more_than_nothing, open_job, serves, unreserved
from stockroom.work.measuring import is_far_above
from stockroom.work.offcuts import CUT_UP, kept, kept_rest, rest_of
from stockroom.work.reasons import refuse_reason
from stockroom.work.reserved import drawn_from
from stockroom.work.soundness import judgement_of, refuse_stopped, warning_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut(Asked):
    """A length to take, for a job or for a reason without one."""

    piece: str
    length_nm: int
    job: str | None = None
    reason: str | None = None
    waste_nm: int = 0
    offcuts: tuple[tuple[int, int], ...] = ()
    despite: str | None = None
    overrun: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Offcut:
    """A piece that was cut and kept."""

    code: str
    across_nm: int
    along_nm: int


@dataclass(frozen=True, slots=True, kw_only=True)
class CutDone:
    """What a cut did."""

    act: Act
    piece: str
    left_nm: int
    offcuts: tuple[Offcut, ...]
    charged_mm2: int
    wasted_mm2: int
    cost_minor: int
    verdict: Verdict
    warning: str
    flaws: tuple[Flaw, ...]


@dataclass(frozen=True, slots=True)
class Film:
    """A piece that is cut, what it is made of, and what is said of it."""

    piece: Piece
    material: Material
    judgement: Judgement


@dataclass(frozen=True, slots=True)
class PanelsCut:
    """The panels a cut makes, how many of each name, their area, and the plan that says where.

    What is neither panel nor offcut is waste.
    """

    numbers: Mapping[str, int]
    area_mm2: int
    plan: Mapping[str, object]


def cut(request: Cut, *, book: Book, now: datetime) -> CutDone:
    """Charge a length of one piece, or refuse and change nothing."""
    _refuse_purpose(request)
    more_than_nothing(request.length_nm, *chain.from_iterable(request.offcuts))
    if request.waste_nm:
        more_than_nothing(request.waste_nm)
    with writing(book, request, now=now, pieces=[request.piece], job=request.job) as pen:
        act = pen.repeated or _append(request, pen)
    return _done(act, request.piece)


def _append(request: Cut, pen: Pen) -> Act:
    piece = free(pen, request.piece)
    job = open_job(pen) if request.job else None
    serves(piece, job)
    at = pen.when(pieces=[piece])
    _refuse_short(request, pen, piece)
    if not request.despite:
        unreserved(pen, piece, request.length_nm, request.job)
    material = material_of(pen.connection, piece.state.material_id, at)
    judgement = judgement_of(pen, piece, material, at)
    refuse_stopped(piece, judgement, request.despite)
    refuse_parts(request, pen, piece)
    moves = [*_found(request, piece), *taken(request, pen, Film(piece, material, judgement), at)]
    return pen.append(ActDraft(kind="cut", at=at, moves=tuple(moves), job=job))


def _refuse_purpose(request: Cut) -> None:
    if (request.job is None) == (request.reason is None):
        raise Refusal(
            Code.BAD_USAGE,
            "A cut is for a job or for a reason: give --job or --for, one of the two.",
        )
    refuse_reason(request.reason)


def _refuse_short(request: Cut, pen: Pen, piece: Piece) -> None:
    system = pen.shop.system
    short_nm = request.length_nm - piece.state.balance
    if short_nm <= 0:
        return
    if piece.state.form == "offcut":
        raise Refusal(
            Code.TOO_LONG,
            f"{grouped(piece.code)} is {show_length(piece.state.balance, system)} long: "
            f"{show_length(request.length_nm, system)} cannot be cut from it.",
        )
    if is_far_above(request.length_nm, piece):
        raise Refusal(
            Code.TOO_LONG,
            f"{grouped(piece.code)} came in with {show_length(piece.state.full, system)}: "
            f"{show_length(request.length_nm, system)} is hard to believe; count it first.",
        )
    if not request.overrun:
        raise Refusal(
            Code.TOO_LONG,
            f"{grouped(piece.code)}: books short by {show_length(short_nm, system)}: "
            f"count it first, or `cut {piece.code} … --overrun`, which counts and cuts in one act.",
        )


def _found(request: Cut, piece: Piece) -> list[MoveDraft]:
    """The count that an overrun is: what was cut must have been there."""
    found_nm = request.length_nm - piece.state.balance
    if found_nm <= 0:
        return []
    return [
        MoveDraft(
            code=piece.code,
            kind="count",
            delta=found_nm,
            cost_minor=cost_between(piece.state, piece.state.balance, request.length_nm),
            facts={"by": "overrun"},
        )
    ]


def taken(
    request: Cut, pen: Pen, film: Film, at: datetime, *, panels: PanelsCut | None = None
) -> list[MoveDraft]:
    """The cut itself, and the offcuts it leaves; an offcut that is cut ends with it."""
    piece, material, judgement = film.piece, film.material, film.judgement
    state = piece.state
    before = max(state.balance, request.length_nm)
    rest = rest_of(pen, piece, material, before - request.length_nm)
    parts = divide(
        state,
        length_nm=request.length_nm,
        waste_nm=request.waste_nm,
        offcuts=request.offcuts,
        rest=rest,
    )
    beside_mm2 = 0 if panels is None else max(0, parts.used_mm2 - panels.area_mm2)
    sets: dict[str, object] = {"ended": CUT_UP} if state.form == "offcut" else {}
    if (kept_for := drawn_from(state, request.job, request.length_nm)) != state.reserved:
        sets["reserved"] = kept_for
    made = {} if panels is None else {"panels": dict(panels.numbers), "plan": panels.plan}
    move = MoveDraft(
        code=piece.code,
        kind="cut",
        delta=-parts.leaves_nm,
        used_mm2=parts.used_mm2 - beside_mm2,
        wasted_mm2=parts.wasted_mm2 + beside_mm2,
        kept_mm2=parts.kept_mm2,
        cost_minor=parts.paid_minor,
        sets=sets,
        facts={
            "length_nm": request.length_nm,
            "reason": request.reason,
            "verdict": judgement.verdict.value,
            "despite": request.despite,
            "warning": warning_of(judgement),
            "flaws": [asdict(one) for one in flaws_ahead(state, request.length_nm)],
            **made,
        },
    )
    number = len(request.offcuts)
    return [
        move,
        *kept(pen, piece, request.offcuts, parts.values[:number], at),
        *kept_rest(pen, piece, rest, parts.values[number:]),
    ]


def refuse_parts(request: Cut, pen: Pen, piece: Piece) -> None:
    """Waste and offcuts are parts of the cut: each fits into it, and together they do too."""
    across_nm = piece.state.width_nm or 0
    for size in request.offcuts:
        if size[0] > across_nm or size[1] > request.length_nm:
            raise Refusal(
                Code.TOO_LONG,
                f"An offcut of {show_size(*size, pen.shop.system)} does not fit into a cut of "
                f"{show_size(across_nm, request.length_nm, pen.shop.system)}.",
            )
    parts = across_nm * request.waste_nm + sum(across * along for across, along in request.offcuts)
    if parts > across_nm * request.length_nm:
        raise Refusal(
            Code.TOO_LONG, "Waste and offcuts are more than what is cut: measure them again."
        )


def _done(act: Act, code: str) -> CutDone:
    last = act.moves_of(code)[-1]
    return CutDone(
        act=act,
        piece=code,
        left_nm=last.balance,
        offcuts=tuple(
            Offcut(code=move.piece, across_nm=_nm(move.sets["width_nm"]), along_nm=move.balance)
            for move in act.moves
            if move.kind == "keep"
        ),
        charged_mm2=last.used_mm2,
        wasted_mm2=last.wasted_mm2,
        cost_minor=last.cost_minor,
        verdict=Verdict(str(last.facts["verdict"])),
        warning=str(last.facts["warning"]),
        flaws=flaws_in(last),
    )


def _nm(value: object) -> int:
    if not isinstance(value, int):
        raise TypeError("a width is a whole number of nanometres")
    return value
