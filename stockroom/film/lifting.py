"""Who lifts a roll, and how heavy it may be: a caution, never a leave.

    takes_two                 two people from 15 kg or above 1.2 m (common practice, no source)
    Lift                      one lift by two hands: where, how far, how often, for how long
    recommended_kg(lift)      the recommended weight limit; 0 where the lift is not recommended
    lifting_index(mass, lift) mass over that limit; None where the lift is not recommended
    multipliers(lift)         what each circumstance takes off the 23 kg of an ideal lift
    lifting_hours(…)          hours of work that count together, from spells and the rests between
    average_per_minute(…)     lifts a minute, over 15 minutes in which not all are spent lifting

Revised NIOSH lifting equation, metric form: Applications Manual, Pub. 94-110, revised 9/2021; the
grips good and poor, and fair from 75 cm, from memory. For two hands, standing, a dry even floor.
A long roll on one shoulder, carrying, stairs and lifting in twos fall outside it.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from math import inf, prod
from typing import NamedTuple

TWO_PEOPLE_FROM_KG = 15.0
TWO_PEOPLE_ABOVE_MM = 1_200.0


def takes_two(mass_kg: float | None, width_mm: float | None) -> bool:
    """Whether a roll is too heavy or too wide for one person; what is unknown says nothing."""
    is_heavy = mass_kg is not None and mass_kg >= TWO_PEOPLE_FROM_KG
    return is_heavy or (width_mm is not None and width_mm > TWO_PEOPLE_ABOVE_MM)


class Grip(StrEnum):
    """How well the hands hold: handles or cut-outs; a loose part or none of them; slippery or bulky."""

    GOOD = "good"
    FAIR = "fair"
    POOR = "poor"


@dataclass(frozen=True, slots=True, kw_only=True)
class Lift:
    """One lift: hands from the ankles, hands above the floor, how far up or down, turned by."""

    horizontal_cm: float
    vertical_cm: float
    travel_cm: float
    angle_deg: float = 0.0
    per_minute: float = 0.2
    hours: float = 1.0
    grip: Grip = Grip.GOOD

    def __post_init__(self) -> None:
        numbers = (self.horizontal_cm, self.vertical_cm, self.travel_cm, self.angle_deg)
        if not all(number >= 0 for number in (*numbers, self.per_minute)):
            raise ValueError("no measure of a lift is below nothing")
        if not 0 < self.hours <= LONGEST_HOURS:
            raise ValueError(f"the table ends at {LONGEST_HOURS} hours, {self.hours} is outside")


class Multipliers(NamedTuple):
    """What each circumstance leaves of the weight of an ideal lift, 0 to 1."""

    horizontal: float
    vertical: float
    travel: float
    angle: float
    frequency: float
    grip: float


_IDEAL_KG = 23.0
_CLOSEST_CM, _FARTHEST_CM = 25.0, 63.0
_KNUCKLES_CM, _HIGHEST_CM = 75.0, 175.0
_SHORTEST_CM, _LONGEST_CM = 25.0, 175.0
_MOST_TURNED_DEG = 135.0
_FAIR_BELOW_KNUCKLES, _POOR = 0.95, 0.90

# Lifts a minute: up to 1, 2 and 8 hours, each from below 75 cm and from 75 cm on. Above 15: none.
_BY_HOURS = (1.0, 2.0, 8.0)
LONGEST_HOURS = _BY_HOURS[-1]
_BY_FREQUENCY = (
    (0.2, (1.00, 1.00, 0.95, 0.95, 0.85, 0.85)),
    (0.5, (0.97, 0.97, 0.92, 0.92, 0.81, 0.81)),
    (1.0, (0.94, 0.94, 0.88, 0.88, 0.75, 0.75)),
    (2.0, (0.91, 0.91, 0.84, 0.84, 0.65, 0.65)),
    (3.0, (0.88, 0.88, 0.79, 0.79, 0.55, 0.55)),
    (4.0, (0.84, 0.84, 0.72, 0.72, 0.45, 0.45)),
    (5.0, (0.80, 0.80, 0.60, 0.60, 0.35, 0.35)),
    (6.0, (0.75, 0.75, 0.50, 0.50, 0.27, 0.27)),
    (7.0, (0.70, 0.70, 0.42, 0.42, 0.22, 0.22)),
    (8.0, (0.60, 0.60, 0.35, 0.35, 0.18, 0.18)),
    (9.0, (0.52, 0.52, 0.30, 0.30, 0.00, 0.15)),
    (10.0, (0.45, 0.45, 0.26, 0.26, 0.00, 0.13)),
    (11.0, (0.41, 0.41, 0.00, 0.23, 0.00, 0.00)),
    (12.0, (0.37, 0.37, 0.00, 0.21, 0.00, 0.00)),
    (13.0, (0.00, 0.34, 0.00, 0.00, 0.00, 0.00)),
    (14.0, (0.00, 0.31, 0.00, 0.00, 0.00, 0.00)),
    (15.0, (0.00, 0.28, 0.00, 0.00, 0.00, 0.00)),
)


def multipliers(lift: Lift) -> Multipliers:
    """What each circumstance of a lift takes off the weight of an ideal one; 0 rules it out."""
    is_low = lift.vertical_cm < _KNUCKLES_CM
    grips = {Grip.GOOD: 1.0, Grip.FAIR: _FAIR_BELOW_KNUCKLES if is_low else 1.0, Grip.POOR: _POOR}
    return Multipliers(
        horizontal=_up_to(
            lift.horizontal_cm, _FARTHEST_CM, _CLOSEST_CM / max(lift.horizontal_cm, _CLOSEST_CM)
        ),
        vertical=_up_to(
            lift.vertical_cm, _HIGHEST_CM, 1 - 0.003 * abs(lift.vertical_cm - _KNUCKLES_CM)
        ),
        travel=_up_to(lift.travel_cm, _LONGEST_CM, 0.82 + 4.5 / max(lift.travel_cm, _SHORTEST_CM)),
        angle=_up_to(lift.angle_deg, _MOST_TURNED_DEG, 1 - 0.0032 * lift.angle_deg),
        frequency=_frequency(lift.per_minute, lift.hours, is_low=is_low),
        grip=grips[lift.grip],
    )


def recommended_kg(lift: Lift) -> float:
    """The recommended weight limit of a lift; 0 where it is not recommended at all."""
    return _IDEAL_KG * prod(multipliers(lift))


def lifting_index(mass_kg: float, lift: Lift) -> float | None:
    """How often the recommended weight a mass is; above 1 some people are at increased risk."""
    limit_kg = recommended_kg(lift)
    return mass_kg / limit_kg if limit_kg else None


def _up_to(measured: float, most: float, multiplier: float) -> float:
    """The multiplier, or none beyond where lifting is recommended at all."""
    return multiplier if measured <= most else 0.0


def _frequency(per_minute: float, hours: float, *, is_low: bool) -> float:
    """The multiplier of the table, between its rows by a straight line."""
    column = 2 * bisect_left(_BY_HOURS, hours) + (not is_low)
    frequencies = [frequency for frequency, _ in _BY_FREQUENCY]
    place = bisect_left(frequencies, per_minute)
    if place == len(frequencies):
        return 0.0
    above, at_above = frequencies[place], _BY_FREQUENCY[place][1][column]
    if place == 0 or per_minute == above:
        return at_above
    below, at_below = frequencies[place - 1], _BY_FREQUENCY[place - 1][1][column]
    return at_below + (at_above - at_below) * (per_minute - below) / (above - below)


_SHORT_MIN, _MODERATE_MIN = 60.0, 120.0
_MODERATE_REST = 0.3  # of the work before it
_SAMPLE_MIN = 15.0


def lifting_hours(work_min: Sequence[float], rest_min: Sequence[float]) -> float:
    """The most hours that count together: spells of lifting, and the light work between them.

    A spell of up to an hour is over after as long a rest, one of up to two hours after three
    tenths of it; after less, the next spell counts with it.
    """
    together = longest = 0.0
    for work, rest in zip(work_min, (0.0, *rest_min), strict=True):
        together = work if rest >= _needed_rest(together) else together + work
        longest = max(longest, together)
    return longest / 60


def _needed_rest(work_min: float) -> float:
    """How long a rest ends a spell of lifting; nothing in a shift ends a long one."""
    if work_min <= _SHORT_MIN:
        return work_min
    return _MODERATE_REST * work_min if work_min <= _MODERATE_MIN else inf


def average_per_minute(per_minute: float, lifting_min: float) -> float:
    """Lifts a minute on average, when only some minutes of every 15 are spent lifting."""
    return per_minute * lifting_min / _SAMPLE_MIN
