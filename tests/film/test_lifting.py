"""Who lifts a roll, and how heavy it may be."""

from dataclasses import replace
from math import nan
from typing import Any

import pytest

from stockroom.film.lifting import (
    Grip,
    Lift,
    lifting_hours,
    lifting_index,
    recommended_kg,
    takes_two,
)


# Common practice, no source: two people from 15 kg, and for more than 1.2 m.
@pytest.mark.parametrize(
    ("mass_kg", "width_mm", "people"),
    [
        (14.99, 1_200, 1),
        (15.0, 300, 2),
        (3.0, 1_200.1, 2),
        (None, 1_200, 1),
        (None, 1_524, 2),
        (15.0, None, 2),
        (None, None, 1),
    ],
)
def test_two_people_lift_what_is_heavy_or_long(
    mass_kg: float | None, width_mm: float | None, people: int
) -> None:
    """Either is enough; what is not known calls for nobody."""
    assert takes_two(mass_kg, width_mm) is (people == 2)


IDEAL = Lift(horizontal_cm=25, vertical_cm=75, travel_cm=25)


def test_the_ideal_lift_is_of_twenty_three_kilograms() -> None:
    """Close, at knuckle height, seldom, held well."""
    assert recommended_kg(IDEAL) == 23.0
    assert lifting_index(23.0, IDEAL) == 1.0
    assert lifting_index(46.0, IDEAL) == 2.0


@pytest.mark.parametrize(
    ("changes", "share"),
    [
        ({"horizontal_cm": 0}, 1),
        ({"horizontal_cm": 50}, 0.5),
        ({"horizontal_cm": 63}, 25 / 63),
        ({"vertical_cm": 0}, 0.775),
        ({"vertical_cm": 175}, 0.7),
        ({"travel_cm": 0}, 1),
        ({"travel_cm": 175}, 0.82 + 4.5 / 175),
        ({"angle_deg": 90}, 0.712),
        ({"angle_deg": 135}, 0.568),
        ({"per_minute": 0}, 1),
        ({"per_minute": 0.35}, 0.985),
        ({"per_minute": 9.5}, 0.485),
        ({"hours": 1.01}, 0.95),
        ({"hours": 2.5, "per_minute": 4.5}, 0.40),
        ({"grip": Grip.POOR}, 0.9),
    ],
)
def test_each_circumstance_takes_its_part_off(changes: dict[str, Any], share: float) -> None:
    """Closer than 25 cm counts as 25, and the table is read between its rows."""
    assert recommended_kg(replace(IDEAL, **changes)) == pytest.approx(23 * share)


@pytest.mark.parametrize(
    "changes",
    [
        {"horizontal_cm": 63.1},
        {"vertical_cm": 175.1},
        {"travel_cm": 175.1},
        {"angle_deg": 135.1},
        {"per_minute": 15.01},
        {"per_minute": 13, "vertical_cm": 74},
        {"per_minute": 9, "vertical_cm": 74, "hours": 8},
    ],
)
def test_outside_of_the_equation_nothing_is_recommended(changes: dict[str, Any]) -> None:
    """And no index can be named."""
    lift = replace(IDEAL, **changes)

    assert recommended_kg(lift) == 0
    assert lifting_index(1.0, lift) is None


@pytest.mark.parametrize(
    "changes",
    [
        *({name: -1} for name in ("horizontal_cm", "vertical_cm", "travel_cm", "angle_deg")),
        {"per_minute": -0.1},
        {"per_minute": nan},
        {"hours": 0},
        {"hours": 8.1},
        {"hours": nan},
    ],
)
def test_a_lift_that_cannot_be_is_an_error(changes: dict[str, Any]) -> None:
    """Readers refuse it before; the table ends at a shift of eight hours."""
    with pytest.raises(ValueError, match=r"below nothing|ends at"):
        replace(IDEAL, **changes)


def test_spells_count_together_until_a_rest_is_long_enough() -> None:
    """The longest of them decides; a long one is ended by nothing in a shift."""
    assert lifting_hours([30], []) == 0.5
    assert lifting_hours([60, 60], [60]) == 1
    assert lifting_hours([60, 60], [59]) == 2
    assert lifting_hours([20, 20, 20, 90], [5, 5, 60]) == 1.5
    assert lifting_hours([130, 10], [600]) == pytest.approx(140 / 60)
