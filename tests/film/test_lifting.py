"""Who lifts a roll."""

import pytest

from stockroom.film.lifting import takes_two


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
