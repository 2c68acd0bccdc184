"""What is said where the work can hurt."""

import pytest

from stockroom.film.kinds import Kind
from stockroom.lines import cautions
from stockroom.units import MM


@pytest.mark.parametrize(
    ("mass_kg", "width_nm", "is_said"),
    [
        (None, None, False),
        (14.9, 1_200 * MM, False),
        (15.0, 760 * MM, True),
        (3.0, 1_201 * MM, True),
        (None, 1_524 * MM, True),
    ],
)
def test_two_people_from_fifteen_kilograms_or_for_a_long_roll(
    mass_kg: float | None, width_nm: int | None, *, is_said: bool
) -> None:
    """Common practice, no source; it defers to local rules and the maker's sheet."""
    said = cautions.lifting(mass_kg, width_nm)

    assert (said is not None) is is_said
    assert said is None or "local rules and the maker's sheet" in said


def test_blades_and_liquids_have_theirs() -> None:
    """Film has the caution of its cut."""
    assert "tin" in str(cautions.taking(Kind.BLADE))
    assert "label every bottle" in str(cautions.taking(Kind.LIQUID))
    assert cautions.taking(Kind.WINDOW_FILM) is None
