"""Usual widths and lengths, against the trade's own figures written out in millimetres."""

import pytest

from stockroom.film.kinds import Kind
from stockroom.film.presets import usual
from stockroom.units import MM

# Common practice, no source; millimetres by the inch of 25.4 mm (international yard and pound, 1959).
USUAL = {
    Kind.WINDOW_FILM: ([914.4, 1219.2, 1524, 1828.8], [30_480]),
    Kind.PROTECTIVE_FILM: ([609.6, 914.4, 1524, 1828.8], [15_240]),
    Kind.PRINT_VINYL: ([1370, 1520], [9_144, 22_860, 45_720]),
    Kind.CALENDERED_VINYL: ([1370, 1520], [9_144, 22_860, 45_720]),
    Kind.BLADE: ([], []),
}


@pytest.mark.parametrize("kind", USUAL)
def test_film_comes_in_its_usual_sizes(kind: Kind) -> None:
    """To the nanometre."""
    widths, lengths = USUAL[kind]

    assert [size / MM for size in usual(kind).widths_nm] == widths
    assert [size / MM for size in usual(kind).lengths_nm] == lengths
