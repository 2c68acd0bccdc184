"""Where a function turns from one sign to the other."""

import pytest

from stockroom.film.roots import crossing


def test_a_crossing_is_found_to_the_last_bit_from_either_side() -> None:
    """The low end is where the function is not above zero, be it left or right."""
    assert crossing(lambda x: x * x - 2, 0, 2) == pytest.approx(2**0.5, rel=1e-15)
    assert crossing(lambda x: 2 - x * x, 2, 0) == pytest.approx(2**0.5, rel=1e-15)


def test_a_crossing_at_the_end_is_that_end() -> None:
    """Nothing lies beyond it."""
    assert crossing(lambda x: x, 0, 1) == 0
