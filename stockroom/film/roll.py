"""A roll's geometry and mass, both ways, and how far to trust them.

    length_m, outside_mm, wraps, length_mm_per_mm_outside, outside_from_round_mm
    calibrated_thickness_um          from a full roll of known length
    mass_kg, length_from_mass_m, core_mass_kg, Layer, parse_layer
    estimate_by_outside, estimate_by_mass      LengthEstimate: the length and its band

The core is given by its outside diameter, where the film starts; the thickness is that of the
film as wound, adhesive and liner with it. Wraps are taken as circles at their mid thickness: a
true spiral differs by less than a millionth. A number no roll can have is refused with BAD_ROLL.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import hypot, pi, sqrt

from stockroom.errors import Code, Refusal, clean_text
from stockroom.units import UM, System
from stockroom.units.typed import parse_density, parse_thickness

# How far a measurement may be off: common practice, no source.
CALLIPER_ERROR_MM = 1.0  # outside diameter measured across
TAPE_ERROR_MM = 2.0 / pi  # outside diameter from a tape laid round: 2 mm of tape
NOMINAL_THICKNESS_ERROR = 0.05  # the maker's thickness, on a roll wound with some air
CALIBRATED_THICKNESS_ERROR = 0.02  # the thickness from a full roll of this film
SCALE_ERROR_KG = 0.05
AREAL_MASS_ERROR = 0.03

_MOST_DIAMETER_MM = 5_000.0
_MOST_THICKNESS_UM = 10_000.0
_MOST_LENGTH_M = 100_000.0
_MOST_MASS_KG = 10_000.0
_MOST_DENSITY_KG_M3 = 25_000.0
_A_HAIR_UM = 0.001  # sums of typed thicknesses are floats


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer of a film: its thickness and what a cubic metre of it weighs."""

    thickness_um: float
    density_kg_m3: float

    @property
    def areal_kg_m2(self) -> float:
        """What a square metre of it weighs."""
        thickness_um = _checked("thickness of a layer", self.thickness_um, _MOST_THICKNESS_UM, "µm")
        density = _checked("density", self.density_kg_m3, _MOST_DENSITY_KG_M3, "kg/m³")
        return thickness_um * 1e-6 * density


@dataclass(frozen=True, slots=True)
class LengthEstimate:
    """A length that was not measured along the film, and the band it lies in."""

    length_m: float
    low_m: float
    high_m: float


def length_m(outside_mm: float, core_outside_mm: float, thickness_um: float) -> float:
    """The length on a roll: pi (D² - d²) / (4 t)."""
    outside, core = _checked_diameters(outside_mm, core_outside_mm)
    thickness = _checked("thickness", thickness_um, _MOST_THICKNESS_UM, "µm")
    return pi * (outside - core) * (outside + core) / (4 * thickness)


def outside_mm(length_m: float, core_outside_mm: float, thickness_um: float) -> float:
    """The outside diameter of a roll that holds a length: sqrt(d² + 4 L t / pi)."""
    core = _checked("core", core_outside_mm, _MOST_DIAMETER_MM, "mm")
    thickness = _checked("thickness", thickness_um, _MOST_THICKNESS_UM, "µm")
    return sqrt(core * core + 4 * _checked_left(length_m) * thickness / pi)


def wraps(outside_mm: float, core_outside_mm: float, thickness_um: float) -> float:
    """How many times the film goes round: (D - d) / (2 t)."""
    outside, core = _checked_diameters(outside_mm, core_outside_mm)
    thickness = _checked("thickness", thickness_um, _MOST_THICKNESS_UM, "µm")
    return (outside - core) / (2 * thickness) * 1_000


def length_mm_per_mm_outside(outside_mm: float, thickness_um: float) -> float:
    """How much length a millimetre of outside diameter stands for: pi D / (2 t)."""
    outside = _checked("outside diameter", outside_mm, _MOST_DIAMETER_MM, "mm")
    thickness = _checked("thickness", thickness_um, _MOST_THICKNESS_UM, "µm")
    return pi * outside / (2 * thickness) * 1_000


def outside_from_round_mm(round_mm: float) -> float:
    """The outside diameter from a tape laid round the roll."""
    return _checked("length round the roll", round_mm, _MOST_DIAMETER_MM * pi, "mm") / pi


def calibrated_thickness_um(outside_mm: float, core_outside_mm: float, length_m: float) -> float:
    """The thickness as it lies on the roll, from a full roll of known length."""
    outside, core = _checked_diameters(outside_mm, core_outside_mm)
    length = _checked("length", length_m, _MOST_LENGTH_M, "m")
    thickness_um = pi * (outside - core) * (outside + core) / (4 * length)
    return _checked("thickness that follows", thickness_um, _MOST_THICKNESS_UM, "µm")


def estimate_by_outside(
    outside_mm: float,
    core_outside_mm: float,
    thickness_um: float,
    *,
    outside_error_mm: float = CALLIPER_ERROR_MM,
    thickness_error: float = NOMINAL_THICKNESS_ERROR,
) -> LengthEstimate:
    """The length by outside diameter; errors of diameter and thickness add as squares."""
    length = length_m(outside_mm, core_outside_mm, thickness_um)
    per_mm = length_mm_per_mm_outside(outside_mm, thickness_um) / 1_000
    return _estimate(length, hypot(per_mm * outside_error_mm, length * thickness_error))


def mass_kg(width_mm: float, length_m: float, layers: Sequence[Layer]) -> float:
    """What a length of film weighs, without its core."""
    return _kg_per_m(width_mm, layers) * _checked_left(length_m)


def length_from_mass_m(
    gross_kg: float, core_kg: float, width_mm: float, layers: Sequence[Layer]
) -> float:
    """The length on a roll that weighs so much, core and all."""
    gross = _checked("mass", gross_kg, _MOST_MASS_KG, "kg")
    if not 0 <= core_kg <= gross:
        raise Refusal(
            Code.BAD_ROLL,
            f"A roll of {gross:g} kg cannot have a core of {core_kg:g} kg: weigh it again.",
        )
    return (gross - core_kg) / _kg_per_m(width_mm, layers)


def estimate_by_mass(
    gross_kg: float, core_kg: float, width_mm: float, layers: Sequence[Layer]
) -> LengthEstimate:
    """The length by weighing; errors of the scale and of the layers add as squares."""
    length = length_from_mass_m(gross_kg, core_kg, width_mm, layers)
    scale_m = SCALE_ERROR_KG / _kg_per_m(width_mm, layers)
    return _estimate(length, hypot(scale_m, length * AREAL_MASS_ERROR))


def core_mass_kg(inside_mm: float, wall_mm: float, length_mm: float, density_kg_m3: float) -> float:
    """What a bare core weighs: a tube of that inside diameter, wall and length."""
    inside = _checked("inside of a core", inside_mm, _MOST_DIAMETER_MM, "mm")
    wall = _checked("wall of a core", wall_mm, _MOST_DIAMETER_MM, "mm")
    length = _checked("length of a core", length_mm, _MOST_LENGTH_M * 1_000, "mm")
    density = _checked("density", density_kg_m3, _MOST_DENSITY_KG_M3, "kg/m³")
    return pi * (inside + wall) * wall * length * 1e-9 * density


def applied_layers(layers: Sequence[Layer], applied_um: float | None) -> tuple[Layer, ...]:
    """The layers that stay when the liner is pulled: from the face down to the thickness as applied.

    All of them where that thickness is not known.
    """
    if applied_um is None:
        return tuple(layers)
    depths = accumulate(layer.thickness_um for layer in layers)
    return tuple(
        layer
        for layer, depth in zip(layers, depths, strict=True)
        if depth <= applied_um + _A_HAIR_UM
    )


def parse_layer(text: str, system: System = System.METRIC) -> Layer:
    """A layer as typed, thickness and density: 50.8um:1390."""
    thickness, colon, density = text.partition(":")
    if not colon:
        raise Refusal(
            Code.BAD_LAYER,
            f"'{clean_text(text, 40)}' is no layer: write thickness and density, like 50.8um:1390.",
        )
    return Layer(parse_thickness(thickness, system) / UM, parse_density(density))


def _estimate(length: float, error: float) -> LengthEstimate:
    return LengthEstimate(length, max(0.0, length - error), length + error)


def _kg_per_m(width_mm: float, layers: Sequence[Layer]) -> float:
    """What a metre of film weighs over its whole width."""
    if not layers:
        raise Refusal(Code.BAD_ROLL, "Nothing is known of the layers: give each, like 50.8um:1390.")
    width = _checked("width", width_mm, _MOST_DIAMETER_MM * 2, "mm")
    return width * 1e-3 * sum(layer.areal_kg_m2 for layer in layers)


def _checked_diameters(outside_mm: float, core_outside_mm: float) -> tuple[float, float]:
    """Outside and core, each possible, and together; a bare core is possible too."""
    outside = _checked("outside diameter", outside_mm, _MOST_DIAMETER_MM, "mm")
    core = _checked("core", core_outside_mm, _MOST_DIAMETER_MM, "mm")
    if outside < core:
        raise Refusal(
            Code.BAD_ROLL,
            f"A roll of {outside:g} mm outside cannot have a core of {core:g} mm: measure both again.",
        )
    return outside, core


def _checked_left(length_m: float) -> float:
    """A length, which may have come to its end."""
    return length_m if length_m == 0 else _checked("length", length_m, _MOST_LENGTH_M, "m")


def _checked(what: str, value: float, most: float, unit: str) -> float:
    """The value itself if a roll can have it; not-a-number is refused too."""
    if 0 < value <= most:
        return value
    raise Refusal(
        Code.BAD_ROLL,
        f"The {what} cannot be {value:g} {unit}: give more than 0 and at most {most:g} {unit}.",
    )
