"""Measuring a piece: by length, diameter, tape, mass or number; what it can be, at least and most."""

from dataclasses import dataclass
from datetime import datetime
from math import floor

from stockroom.books.catalog import materials
from stockroom.books.pen import Pen
from stockroom.books.values import Asked, Material, Piece
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
from stockroom.work.gates import of_form
from stockroom.work.layers import layers_of
from stockroom.work.windings import core_outside_nm

CORE_DENSITY_KG_M3 = 700.0
"""Wound paper tube: common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measuring(Asked):
    """One measurement of a piece, in one of five ways."""

    piece: str
    length_nm: int | None = None
    outside_nm: int | None = None
    round_nm: int | None = None
    mass_mg: int | None = None
    number: int | None = None

    @property
    def given(self) -> tuple[int, ...]:
        """What was measured."""
        ways = (self.length_nm, self.outside_nm, self.round_nm, self.mass_mg, self.number)
        return tuple(one for one in ways if one is not None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What a measurement found: the likeliest, the least and the most, and how it was measured."""

    found: int
    low: int
    high: int
    by: str

    def allows(self, amount: int) -> bool:
        """Whether it can be so much."""
        return self.low <= amount <= self.high


def one_measurement(request: Measuring) -> None:
    """Refuse none, several, and less than nothing."""
    if len(request.given) != 1:
        raise Refusal(
            Code.BAD_USAGE,
            "A count needs one measurement: --length, --outside, --round, --mass or --number.",
        )
    if request.given[0] < 0:
        raise Refusal(Code.BAD_LENGTH, "A measurement is not less than nothing: measure again.")


def measured(request: Measuring, pen: Pen, piece: Piece, at: datetime) -> Found:
    """What the one measurement says of a piece."""
    of_form(piece, "box") if request.number is not None else of_form(piece, "roll", "offcut")
    material = materials(pen.connection, at)[piece.state.material_id]
    found, low, high, by = _measured(request, piece, material)
    return Found(found=found, low=low, high=high, by=by)


def amount_of(piece: Piece, amount: int, pen: Pen) -> str:
    """A length or a number, as people read it."""
    return str(amount) if piece.state.form == "box" else show_length(amount, pen.shop.system)


def is_far_above(amount: int, piece: Piece) -> bool:
    """Whether it is half as much again as the piece came in with, which is hard to believe."""
    return amount > piece.state.full * 3 // 2


def _measured(request: Measuring, piece: Piece, material: Material) -> tuple[int, int, int, str]:
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
