"""Counting: a measurement confirms the books or corrects them; a bare core ends a roll."""

from dataclasses import dataclass
from datetime import datetime
from math import floor

from stockroom.books.catalog import materials
from stockroom.books.opening import Book
from stockroom.books.pen import Pen, writing
from stockroom.books.values import Act, ActDraft, Asked, Material, MoveDraft, Piece
from stockroom.codes.own import grouped
from stockroom.errors import Code, Refusal
from stockroom.film.roll import (
    TAPE_ERROR_MM,
    LengthEstimate,
    core_mass_kg,
    estimate_by_mass,
    estimate_by_outside,
    outside_from_round_mm,
)
from stockroom.units import KG, MM, UM, M
from stockroom.units.shown import show_length
from stockroom.work.charging import cost_between
from stockroom.work.gates import of_form, on_hand
from stockroom.work.judging import core_outside_nm
from stockroom.work.layers import layers_of

FINISHED = "finished"
CORE_DENSITY_KG_M3 = 700.0
"""Wound paper tube: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Count(Asked):
    """One measurement of a piece: exactly one of the five is given."""

    piece: str
    length_nm: int | None = None
    outside_nm: int | None = None
    round_nm: int | None = None
    mass_mg: int | None = None
    number: int | None = None
    replace: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish(Asked):
    """The core is bare."""

    piece: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """What a count said: the balance before and now, the band of the measurement."""

    act: Act
    piece: str
    before: int
    left: int
    low: int
    high: int
    confirmed: bool


def count(request: Count, *, book: Book, now: datetime) -> Counted:
    """Confirm the books where the measurement allows them, or correct them."""
    given = (
        request.length_nm,
        request.outside_nm,
        request.round_nm,
        request.mass_mg,
        request.number,
    )
    if sum(one is not None for one in given) != 1:
        raise Refusal(
            Code.BAD_USAGE,
            "A count needs one measurement: --length, --outside, --round, --mass or --number.",
        )
    if any(one is not None and one < 0 for one in given):
        raise Refusal(Code.BAD_LENGTH, "A measurement is not less than nothing: measure again.")
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        act = pen.repeated or _append(request, pen)
    move = act.moves[0]
    return Counted(
        act=act,
        piece=move.piece,
        before=move.balance - move.delta,
        left=move.balance,
        low=_whole(move.facts["low"]),
        high=_whole(move.facts["high"]),
        confirmed=move.delta == 0,
    )


def finish(request: Finish, *, book: Book, now: datetime) -> Counted:
    """End a roll whose core is bare; what the books still had of it is variance."""
    with writing(book, request, now=now, pieces=[request.piece]) as pen:
        act = pen.repeated or _finished(request, pen)
    move = act.moves[0]
    return Counted(
        act=act, piece=move.piece, before=-move.delta, left=0, low=0, high=0, confirmed=False
    )


def _append(request: Count, pen: Pen) -> Act:
    piece = on_hand(pen.piece(request.piece))
    of_form(piece, "box") if request.number is not None else of_form(piece, "roll", "offcut")
    at = pen.when(pieces=[piece])
    material = materials(pen.connection, at)[piece.state.material_id]
    found, low, high, by = _measured(request, piece, material)
    if low > piece.state.full * 3 // 2 and not request.replace:
        raise Refusal(
            Code.TOO_MANY if request.number is not None else Code.TOO_LONG,
            f"{grouped(piece.code)} came in with {_amount(piece, piece.state.full, pen)}: "
            f"{_amount(piece, found, pen)} is hard to believe; measure again, "
            "or write it with --replace.",
        )
    is_held_up = low <= piece.state.balance <= high and not request.replace
    after = piece.state.balance if is_held_up else found
    move = MoveDraft(
        code=piece.code,
        kind="count",
        delta=after - piece.state.balance,
        cost_minor=cost_between(piece.state, piece.state.balance, after),
        facts={"by": by, "found": found, "low": low, "high": high},
    )
    return pen.append(ActDraft(kind="count", at=at, moves=(move,)))


def _amount(piece: Piece, amount: int, pen: Pen) -> str:
    """A length or a number, as people read it."""
    return str(amount) if piece.state.form == "box" else show_length(amount, pen.shop.system)


def _finished(request: Finish, pen: Pen) -> Act:
    piece = on_hand(pen.piece(request.piece))
    at = pen.when(pieces=[piece])
    move = MoveDraft(
        code=piece.code,
        kind="finished",
        delta=-piece.state.balance,
        cost_minor=cost_between(piece.state, piece.state.balance, 0),
        sets={"ended": FINISHED},
    )
    return pen.append(ActDraft(kind="finished", at=at, moves=(move,)))


def _measured(request: Count, piece: Piece, material: Material) -> tuple[int, int, int, str]:
    """What was found, the least and the most it can be, and how."""
    if request.number is not None:
        return request.number, request.number, request.number, "number"
    if request.length_nm is not None:
        return request.length_nm, request.length_nm, request.length_nm, "length"
    if request.mass_mg is not None:
        return *_nm(_by_mass(request.mass_mg, piece, material)), "mass"
    if request.outside_nm is not None:
        return *_nm(_by_outside(request.outside_nm / MM, piece)), "outside"
    if request.round_nm is None:
        raise ValueError("a count without a measurement")
    outside_mm = outside_from_round_mm(request.round_nm / MM)
    return *_nm(_by_outside(outside_mm, piece, error_mm=TAPE_ERROR_MM)), "round"


def _by_outside(
    outside_mm: float, piece: Piece, *, error_mm: float | None = None
) -> LengthEstimate:
    core_nm = core_outside_nm(piece.state)
    if core_nm is None or piece.state.thickness_nm is None:
        raise Refusal(
            Code.UNKNOWN_SIZE,
            f"The core or the thickness of {grouped(piece.code)} is not known: "
            "count it by length, or enter them with the material.",
        )
    thickness_um = piece.state.thickness_nm / UM
    if error_mm is None:
        return estimate_by_outside(outside_mm, core_nm / MM, thickness_um)
    return estimate_by_outside(outside_mm, core_nm / MM, thickness_um, outside_error_mm=error_mm)


def _by_mass(mass_mg: int, piece: Piece, material: Material) -> LengthEstimate:
    state = piece.state
    layers = layers_of(state, material)
    if not layers or state.width_nm is None:
        raise Refusal(
            Code.UNKNOWN_SIZE,
            f"The layers of {material.name} are not known: count by length, "
            "or enter them with `material change`.",
        )
    core_kg = 0.0
    if state.form == "roll":
        if state.core_inside_nm is None or state.core_wall_nm is None:
            raise Refusal(
                Code.UNKNOWN_SIZE,
                f"The core of {grouped(piece.code)} is not known, and it weighs too: "
                "count by length.",
            )
        width_mm = state.width_nm / MM
        core_kg = core_mass_kg(
            state.core_inside_nm / MM, state.core_wall_nm / MM, width_mm, CORE_DENSITY_KG_M3
        )
    return estimate_by_mass(mass_mg / KG, core_kg, state.width_nm / MM, layers)


def _nm(estimate: LengthEstimate) -> tuple[int, int, int]:
    return floor(estimate.length_m * M), floor(estimate.low_m * M), floor(estimate.high_m * M)


def _whole(value: object) -> int:
    if not isinstance(value, int):
        raise TypeError("a measured length is a whole number of nanometres")
    return value
