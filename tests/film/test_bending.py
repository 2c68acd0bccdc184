"""Bent film: circles, strips that were measured, and what cannot have been."""

from collections.abc import Callable
from math import inf, nan, pi, sin

import pytest

from stockroom.errors import Code, Refusal
from stockroom.film import bending


def _chord_mm(curl_per_m: float, strip_mm: float) -> float:
    """The chord of a strip that curls, from first principles: 2 R sin(s / 2R)."""
    radius_mm = 1_000 / curl_per_m
    return 2 * radius_mm * sin(strip_mm / (2 * radius_mm))


def test_a_curl_and_its_circle_are_each_others_inverse() -> None:
    """To whichever side; flat film has no circle."""
    assert bending.circle_mm(bending.curl_of_circle_per_m(76)) == pytest.approx(76, rel=1e-15)
    assert bending.circle_mm(-26.25) == bending.circle_mm(26.25)
    assert bending.circle_mm(0) is None


@pytest.mark.parametrize("curl", [1e-6, 0.1, 3.6, 10.0, 20.0])
def test_chord_and_height_of_a_strip_give_its_curl_back(curl: float) -> None:
    """Nearly straight, and past half a circle too: 300 mm at 20 per metre is nearly closed."""
    chord, height = _chord_mm(curl, 300), bending.sagitta_mm(curl, 300)

    assert bending.curl_from_chord_per_m(chord, height) == pytest.approx(curl, rel=1e-9)
    assert bending.curl_from_chord_per_m(chord, height, 300) == pytest.approx(curl, rel=1e-9)


@pytest.mark.parametrize("curl", [1e-6, 0.1, 3.6, 10.0, 10.47])
def test_length_and_height_of_a_strip_give_its_curl_back(curl: float) -> None:
    """Up to half a circle, which is 10.47 per metre for 300 mm."""
    height = bending.sagitta_mm(curl, 300)

    assert bending.curl_from_arc_per_m(300, height) == pytest.approx(curl, rel=1e-9)
    assert bending.curl_from_arc_per_m(300, 0) == 0


def test_half_a_circle_is_the_last_one_that_its_height_tells() -> None:
    """There h is s / pi; beyond, the same height belongs to two circles, and the chord is asked for."""
    assert bending.curl_from_arc_per_m(300, 300 / pi) == pytest.approx(1_000 * pi / 300)
    for height in (300 / pi + 0.01, 108.6, 150.0):
        with pytest.raises(Refusal, match="measure the chord") as refused:
            bending.curl_from_arc_per_m(300, height)

        assert refused.value.code is Code.BAD_CURL


def test_a_closed_strip_is_as_high_as_its_circle_and_has_no_chord() -> None:
    """However often it goes round."""
    assert bending.sagitta_mm(40, 300) == pytest.approx(50)
    assert bending.sagitta_mm(40, 50 * pi) == pytest.approx(50)
    assert bending.curl_from_chord_per_m(0, 50, 300) == pytest.approx(40)


def test_a_strip_that_lies_flat_has_no_curl() -> None:
    """Ends as far apart as it is long, no height, and back."""
    assert bending.curl_from_chord_per_m(300, 0, 300) == 0
    assert bending.curl_from_chord_per_m(300, 5, 300) > 0  # a ruler does not see the 0.2 mm
    assert bending.sagitta_mm(0, 300) == 0


def test_the_side_of_a_curl_does_not_change_how_high_it_stands() -> None:
    """It is a size."""
    assert bending.sagitta_mm(-3, 300) == bending.sagitta_mm(3, 300) > 0


@pytest.mark.parametrize(
    ("chord", "height", "said"),
    [
        (301, 0, "A chord of 301 mm is longer than its strip of 300 mm: measure both again."),
        (
            299,
            20,
            "A strip of 300 mm with a chord of 299 mm cannot stand 20 mm high: measure again.",
        ),
        (0, 151, "A strip of 300 mm with a chord of 0 mm cannot stand 151 mm high: measure again."),
    ],
)
def test_what_no_strip_of_its_length_can_measure_is_refused(
    chord: float, height: float, said: str
) -> None:
    """Two straight halves would stand highest."""
    with pytest.raises(Refusal) as refused:
        bending.curl_from_chord_per_m(chord, height, 300)

    assert (refused.value.code, refused.value.sentence) == (Code.BAD_CURL, said)


@pytest.mark.parametrize("bad", [-1.0, nan, inf, -inf, 1e9])
def test_a_length_nobody_can_have_measured_is_refused(bad: float) -> None:
    """Negative, not a number, endless, huge; in each place."""
    measures: list[Callable[[], float]] = [
        lambda: bending.curl_from_chord_per_m(bad, 10),
        lambda: bending.curl_from_chord_per_m(100, bad),
        lambda: bending.curl_from_chord_per_m(100, 10, bad),
        lambda: bending.curl_from_arc_per_m(bad, 10),
        lambda: bending.curl_from_arc_per_m(300, bad),
        lambda: bending.curl_of_circle_per_m(bad),
        lambda: bending.sagitta_mm(10, bad),
    ]
    for measure in measures:
        with pytest.raises(Refusal) as refused:
            measure()

        assert refused.value.code is Code.BAD_CURL


def test_no_chord_and_no_height_is_no_measurement() -> None:
    """The sentence says what to measure."""
    with pytest.raises(Refusal, match="measure from end to end, and how high"):
        bending.curl_from_chord_per_m(0, 0)
    with pytest.raises(Refusal, match="The strip cannot be 0 mm"):
        bending.curl_from_arc_per_m(0, 0)


@pytest.mark.parametrize(("chord", "height"), [(299.0, 5.0), (250.0, 60.0), (100.0, 90.0)])
def test_a_reading_error_is_what_a_millimetre_of_each_reading_does(
    chord: float, height: float
) -> None:
    """Against differences over a hundredth of a millimetre, added as squares."""
    curl = bending.curl_from_chord_per_m
    by_chord = (curl(chord + 0.01, height) - curl(chord - 0.01, height)) / 0.02
    by_height = (curl(chord, height + 0.01) - curl(chord, height - 0.01)) / 0.02

    error = bending.reading_error_per_m(chord, height)

    assert error == pytest.approx((by_chord**2 + by_height**2) ** 0.5, rel=1e-5)
    assert bending.reading_error_per_m(chord, height, 2) == pytest.approx(2 * error)


def test_film_twice_as_thick_takes_eight_times_the_energy_to_hold_flat() -> None:
    """With its cube; and with the square of the curl, to either side."""
    thin, thick = (bending.Plate(4.5, 0.38, thickness) for thickness in (50.8, 101.6))

    assert thick.flat_energy_j_m2(10) == pytest.approx(8 * thin.flat_energy_j_m2(10))
    assert thin.flat_energy_j_m2(-20) == pytest.approx(4 * thin.flat_energy_j_m2(10))
    assert thin.lift_moment_n(-20) == pytest.approx(2 * thin.lift_moment_n(10))


@pytest.mark.parametrize(
    ("modulus", "poisson", "thickness", "code"),
    [
        (0, 0.38, 50, Code.BAD_MEMORY),
        (nan, 0.38, 50, Code.BAD_MEMORY),
        (inf, 0.38, 50, Code.BAD_MEMORY),
        (4.5, -0.1, 50, Code.BAD_MEMORY),
        (4.5, 0.51, 50, Code.BAD_MEMORY),
        (4.5, nan, 50, Code.BAD_MEMORY),
        (4.5, 0.38, 0, Code.BAD_CURL),
    ],
)
def test_what_no_film_is_made_of_is_refused(
    modulus: float, poisson: float, thickness: float, code: Code
) -> None:
    """No stiffness, or a ratio no solid has."""
    with pytest.raises(Refusal) as refused:
        bending.Plate(modulus, poisson, thickness)

    assert refused.value.code is code
