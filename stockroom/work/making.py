"""Film that becomes other film, as in a print or a laminate: what leaves a piece for it."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any

from stockroom.books.catalog import materials, place_named
from stockroom.books.pen import Pen
from stockroom.books.values import Act, Asked, Material, Move, MoveDraft, Piece
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.film.verdict import Judgement, Verdict
from stockroom.units.shown import show_length
from stockroom.work.charging import turn_into
from stockroom.work.flaw import Flaw, flaws_ahead, flaws_in
from stockroom.work.gates import more_than_nothing
from stockroom.work.offcuts import CUT_UP, kept_rest, rest_of
from stockroom.work.soundness import judgement_of
from stockroom.work.winding import NO_CORE_NAMED, Core


@dataclass(frozen=True, slots=True, kw_only=True)
class Remake(Asked):
    """A length of a piece that becomes other film, for a job or for nothing yet; waste is part of it."""

    piece: str
    length_nm: int
    waste_nm: int = 0
    job: str | None = None
    core: Core = NO_CORE_NAMED
    place: str | None = None
    despite: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Parent:
    """A piece that film is taken from, what it is made of, and what is to be thought of it."""

    piece: Piece
    material: Material
    judgement: Judgement


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """What an act takes of a parent: a length, of which so much is waste, at the width that is kept."""

    kind: str
    ended: str
    length_nm: int
    waste_nm: int
    across_nm: int
    facts: Mapping[str, object]


@dataclass(frozen=True, slots=True)
class Given:
    """What a parent gives: its own move, the rest of an offcut, and the value of what is kept."""

    move: MoveDraft
    rest: tuple[MoveDraft, ...]
    value_minor: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """What an act took of one parent, read from the act."""

    piece: str
    left_nm: int
    rest: tuple[str, ...]
    kept_mm2: int
    wasted_mm2: int
    cost_minor: int
    verdict: Verdict
    warning: str
    flaws: tuple[Flaw, ...]


def parent(pen: Pen, piece: Piece, at: datetime) -> Parent:
    """The piece with its material and verdict at the instant of the act."""
    material = materials(pen.connection, at)[piece.state.material_id]
    judgement = judgement_of(pen, piece, material, at)
    return Parent(piece=piece, material=material, judgement=judgement)


def refuse_longer(pen: Pen, piece: Piece, length_nm: int, waste_nm: int) -> None:
    """Refuse more than the piece holds, and waste that leaves nothing."""
    more_than_nothing(length_nm)
    if not 0 <= waste_nm < length_nm:
        raise Refusal(Code.TOO_LONG, "The waste is all there is: nothing would be left to keep.")
    if length_nm > piece.state.balance:
        system = pen.shop.system
        raise Refusal(
            Code.TOO_LONG,
            f"{grouped(piece.code)} holds {show_length(piece.state.balance, system)}, and "
            f"{show_length(length_nm, system)} are needed: count it, or take another.",
        )


def give(pen: Pen, of: Parent, making: Making) -> Given:
    """Take a length out of a parent; an offcut ends with it, and what is left gets a new code."""
    piece, state = of.piece, of.piece.state
    rest = rest_of(pen, piece, of.material, state.balance - making.length_nm)
    parts = turn_into(
        state,
        length_nm=making.length_nm,
        waste_nm=making.waste_nm,
        across_nm=making.across_nm,
        rest=rest,
    )
    value, *of_rest = parts.values
    move = MoveDraft(
        code=piece.code,
        kind=making.kind,
        delta=-parts.leaves_nm,
        wasted_mm2=parts.wasted_mm2,
        kept_mm2=parts.kept_mm2,
        cost_minor=parts.paid_minor,
        sets=_ended(piece, making),
        facts={
            **making.facts,
            "verdict": of.judgement.verdict.value,
            "warning": _warning(of.judgement),
            "flaws": [asdict(one) for one in flaws_ahead(state, making.length_nm)],
        },
    )
    return Given(move, tuple(kept_rest(pen, piece, rest, of_rest)), value)


def taken(act: Act, code: str) -> Taken:
    """What the act took of one parent."""
    move: Move = act.moves_of(code)[-1]
    facts: Mapping[str, Any] = move.facts
    return Taken(
        piece=code,
        left_nm=move.balance,
        rest=tuple(
            one.piece for one in act.moves if one.kind == "keep" and one.sets["parent"] == code
        ),
        kept_mm2=move.kept_mm2,
        wasted_mm2=move.wasted_mm2,
        cost_minor=move.cost_minor,
        verdict=Verdict(facts["verdict"]),
        warning=facts["warning"],
        flaws=flaws_in(move),
    )


def placed(request: Remake, pen: Pen) -> dict[str, object]:
    """Where what was made stands; beside what it was made of, unless it is said."""
    if request.place is None:
        return {}
    return {"place_id": place_named(pen.connection, request.place, pen.now).id}


def _ended(piece: Piece, making: Making) -> Mapping[str, object]:
    """How a parent ends: an offcut always, a printed roll when all of it goes in."""
    is_offcut = piece.state.form == "offcut"
    if making.length_nm == piece.state.balance and (is_offcut or piece.state.printed):
        return {"ended": making.ended}
    return {"ended": CUT_UP} if is_offcut else {}


def _warning(judgement: Judgement) -> str:
    """What is to be minded: why it is not plain film to use, and how long a print still rests."""
    wanted = {judgement.verdict, Verdict.WAIT} - {Verdict.USE}
    return "; ".join(one.text for one in judgement.reasons if one.verdict in wanted)
