"""Bent film: how sharply a diameter bends it, what a strip that curls measures, what holds it flat.

    imposed_per_m, strain                     by the diameter film lies on
    circle_mm, curl_of_circle_per_m           a curl, and the circle it closes to
    sagitta_mm                                how high a strip stands
    curl_from_chord_per_m                     from chord and height of a strip that lies free
    curl_from_arc_per_m                       from its length and height, up to half a circle
    reading_error_per_m                       how far a curl by chord and height may be off
    Plate                                     stiffness, lift-off moment, energy to hold it flat

Curl is curvature, in 1/m; its sign says to which side. Thicknesses are those of the film as it is
bent: as wound for what a roll imposes, as applied for what holds it on glass. A strip that cannot
be is refused with BAD_CURL, a roll that cannot be with BAD_ROLL.
"""

from dataclasses import dataclass
from math import hypot, inf, pi, sin, sqrt

from stockroom.errors import Code, Refusal
from stockroom.film.roots import crossing

READING_ERROR_MM = 1.0  # of a ruler beside a strip: common practice, no source

_MOST_MM = 100_000.0
_HALF_TURN = pi / 2  # of the angle that half a strip turns through
_A_HAIR = 1e-9  # typed lengths are floats here


def imposed_per_m(diameter_mm: float, thickness_um: float) -> float:
    """The curvature of film that lies on a diameter: 2 / (D + t), at its mid thickness."""
    return 2_000 / (diameter_mm + thickness_um * 1e-3)


def strain(diameter_mm: float, thickness_um: float) -> float:
    """How far the outer face of bent film is stretched, as a fraction: t / (D + t)."""
    thickness_mm = thickness_um * 1e-3
    return thickness_mm / (diameter_mm + thickness_mm)


def circle_mm(curl_per_m: float) -> float | None:
    """The diameter of the circle film curls to; None when it lies flat."""
    return abs(2_000 / curl_per_m) if curl_per_m else None


def curl_of_circle_per_m(circle_mm: float) -> float:
    """The curl of film that closes to a circle."""
    return 2_000 / _measured("circle", circle_mm)


def sagitta_mm(curl_per_m: float, strip_mm: float) -> float:
    """How high a strip stands over its chord: R (1 - cos(s / 2R)); once closed, its diameter."""
    circle = circle_mm(curl_per_m)
    if circle is None:
        return 0.0
    half_turn = min(_measured("strip", strip_mm) / circle, pi)
    return circle * sin(half_turn / 2) ** 2


def curl_from_chord_per_m(
    chord_mm: float, height_mm: float, strip_mm: float | None = None
) -> float:
    """The curl of the circle through chord and height: 8 h / (c² + 4 h²).

    A closed strip has no chord, and the diameter of its circle as height. With the length of the
    strip, a chord or height that such a strip cannot have is refused.
    """
    chord = _measured("chord", chord_mm, least=0)
    height = _measured("height", height_mm, least=0)
    if chord == height == 0:
        raise Refusal(
            Code.BAD_CURL, "A strip has a chord or a height: measure from end to end, and how high."
        )
    if strip_mm is not None:
        _refuse_longer_than_the_strip(chord, height, _measured("strip", strip_mm))
    return 8_000 * height / (chord * chord + 4 * height * height)


def curl_from_arc_per_m(arc_mm: float, height_mm: float) -> float:
    """The curl of a strip of a length that stands so high, solved from h / s = sin²(u / 2) / u.

    `u` is s / 2R. Past half a circle a height belongs to two circles: then the chord is asked for,
    as far as that can be seen. A strip that has closed must not be measured so.
    """
    arc = _measured("strip", arc_mm)
    height = _measured("height", height_mm, least=0)
    if height * pi > arc * (1 + _A_HAIR):
        raise Refusal(
            Code.BAD_CURL,
            f"A strip of {arc:g} mm stands {height:g} mm high only past half a circle, where its "
            "height does not tell which: measure the chord between its ends, 0 where they meet.",
        )
    half_turn = crossing(
        lambda u: sin(u / 2) ** 2 / u * arc - height if u else -height, 0, _HALF_TURN
    )
    return 2_000 * half_turn / arc


def reading_error_per_m(
    chord_mm: float, height_mm: float, error_mm: float = READING_ERROR_MM
) -> float:
    """How far a curl by chord and height is off when both readings are; they add as squares."""
    square = chord_mm * chord_mm + 4 * height_mm * height_mm
    by_height = 8_000 * (chord_mm * chord_mm - 4 * height_mm * height_mm) / square**2
    by_chord = 16_000 * height_mm * chord_mm / square**2
    return hypot(by_height, by_chord) * error_mm


@dataclass(frozen=True, slots=True)
class Plate:
    """Film as applied, for the theory of thin plates."""

    modulus_gpa: float
    poisson: float
    thickness_um: float

    def __post_init__(self) -> None:
        if not (0 < self.modulus_gpa < inf and 0 <= self.poisson <= 1 / 2):
            raise Refusal(
                Code.BAD_MEMORY,
                f"No film has a modulus of {self.modulus_gpa:g} GPa and a Poisson's ratio of "
                f"{self.poisson:g}: give more than 0 GPa, and a ratio from 0 to 0.5.",
            )
        _measured("thickness", self.thickness_um * 1e-3)

    @property
    def stiffness_n_m(self) -> float:
        """Bending stiffness per width, in newton metres: E t³ / (12 (1 - nu²))."""
        thickness_m = self.thickness_um * 1e-6
        return self.modulus_gpa * 1e9 * thickness_m**3 / (12 * (1 - self.poisson**2))

    def lift_moment_n(self, curl_per_m: float) -> float:
        """The moment per width with which flat film lifts off, in newton metres per metre."""
        return self.stiffness_n_m * abs(curl_per_m)

    def flat_energy_j_m2(self, curl_per_m: float) -> float:
        """The energy it takes to hold film flat, in joules per square metre: D k² / 2."""
        return self.stiffness_n_m * curl_per_m**2 / 2


def _refuse_longer_than_the_strip(chord_mm: float, height_mm: float, strip_mm: float) -> None:
    """Refuse ends farther apart than the strip is long, and a height no bent strip reaches."""
    if chord_mm > strip_mm * (1 + _A_HAIR):
        raise Refusal(
            Code.BAD_CURL,
            f"A chord of {chord_mm:g} mm is longer than its strip of {strip_mm:g} mm: "
            "measure both again.",
        )
    # Of all shapes, two straight halves stand highest; the chord of a flat strip tells least of it.
    shorter_mm = max(0.0, chord_mm - READING_ERROR_MM)
    highest_mm = sqrt(strip_mm**2 - shorter_mm**2) / 2
    if height_mm > highest_mm * (1 + _A_HAIR):
        raise Refusal(
            Code.BAD_CURL,
            f"A strip of {strip_mm:g} mm with a chord of {chord_mm:g} mm cannot stand "
            f"{height_mm:g} mm high: measure again.",
        )


def _measured(what: str, value_mm: float, least: float | None = None) -> float:
    """A length somebody can have measured; not-a-number is refused too."""
    if (value_mm > 0 or value_mm == least) and value_mm <= _MOST_MM:
        return value_mm
    more = "more than 0" if least is None else "at least 0"
    raise Refusal(
        Code.BAD_CURL,
        f"The {what} cannot be {value_mm:g} mm: give {more} and at most {_MOST_MM:g} mm.",
    )
