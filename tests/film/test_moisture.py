"""Moisture on a cold roll, and when it may be unwrapped."""

from dataclasses import replace
from math import log, nan

import pytest

from stockroom.film.moisture import (
    MARGIN_K,
    Moving,
    dew_point_c,
    humidity_at_surface,
    saturation_pressure_pa,
    unwrapping,
    volume_per_surface_m,
)

VAN = Moving(from_c=2.0, air_c=22.0, humidity=0.5, outside_mm=150.0, width_mm=1_524.0)
DEW_C = dew_point_c(22.0, 0.5)


def test_a_roll_from_a_cold_van_gets_wet_and_waits() -> None:
    """Until it is 3 K above the dew point, 14.1 °C, six tenths of the way to 22 °C."""
    found = unwrapping(VAN)

    share = (DEW_C + MARGIN_K - 2) / 20
    assert found.condenses
    assert found.dew_point_c == pytest.approx(11.11, abs=0.001)
    assert found.humidity_at_film > 1
    assert found.wait_hours == pytest.approx(144.27 * 0.03574109 * log(1 / (1 - share)), rel=1e-6)


@pytest.mark.parametrize(
    ("from_c", "condenses", "waits"),
    [
        (DEW_C - 0.01, True, True),
        (DEW_C + 0.01, False, True),
        (DEW_C + MARGIN_K - 0.01, False, True),
        (DEW_C + MARGIN_K + 0.01, False, False),
        (22.0, False, False),
        (35.0, False, False),
    ],
)
def test_near_the_dew_point_it_waits_though_nothing_forms(
    from_c: float, *, condenses: bool, waits: bool
) -> None:
    """The margin of 3 K is from memory, a rule of the coating trade."""
    found = unwrapping(replace(VAN, from_c=from_c))

    assert found.condenses is condenses
    assert (found.wait_hours != 0) is waits


def test_in_air_that_is_nearly_saturated_it_never_dries() -> None:
    """The roll comes no nearer to it than the air is; how long is unknown, not none."""
    found = unwrapping(replace(VAN, humidity=0.9))

    assert found.condenses
    assert found.wait_hours is None


def test_a_warm_roll_in_such_air_need_not_wait() -> None:
    """It cools down to the air, and that is above its dew point."""
    found = unwrapping(replace(VAN, humidity=0.9, from_c=30.0))

    assert not found.condenses
    assert found.wait_hours == 0


@pytest.mark.parametrize(
    "colder", [{"from_c": -10.0}, {"humidity": 0.6}, {"outside_mm": 200.0}, {"width_mm": 1_600.0}]
)
def test_colder_wetter_or_thicker_waits_longer(colder: dict[str, float]) -> None:
    """Each by itself."""
    before, after = unwrapping(VAN).wait_hours, unwrapping(replace(VAN, **colder)).wait_hours

    assert before is not None
    assert after is not None
    assert after > before


def test_saturated_air_is_at_its_dew_point() -> None:
    """And at its surface it is as humid as it is."""
    for air_c in (-20.0, 0.0, 0.01, 20.0, 60.0):
        assert dew_point_c(air_c, 1.0) == pytest.approx(air_c, abs=1e-9)
        assert humidity_at_surface(air_c, 0.4, air_c) == pytest.approx(0.4)
        dew_c = dew_point_c(air_c, 0.4)
        assert humidity_at_surface(air_c, 0.4, dew_c) == pytest.approx(1, rel=1e-9)


def test_a_thin_disc_warms_by_its_faces_and_a_long_roll_by_its_mantle() -> None:
    """Half the thickness of the disc, a quarter of the diameter of the roll."""
    assert volume_per_surface_m(10_000, 10) == pytest.approx(0.005, rel=0.01)
    assert volume_per_surface_m(100, 100_000) == pytest.approx(0.025, rel=0.01)


@pytest.mark.parametrize("humidity", [0.0, -0.1, 1.001, 50.0, nan])
def test_air_without_a_humidity_has_no_dew_point(humidity: float) -> None:
    """Per cent instead of a share is an error too."""
    with pytest.raises(ValueError, match="no dew point"):
        dew_point_c(20.0, humidity)


def test_a_dew_point_below_the_equations_is_an_error() -> None:
    """No shop is that dry."""
    with pytest.raises(ValueError, match="below"):
        dew_point_c(-60.0, 0.001)


@pytest.mark.parametrize("temperature_c", [-100.1, 200.1, nan])
def test_outside_of_the_equations_there_is_no_pressure(temperature_c: float) -> None:
    """From -100 to 200 °C."""
    with pytest.raises(ValueError, match="outside"):
        saturation_pressure_pa(temperature_c)
