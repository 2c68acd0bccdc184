"""Quantities are shown as the trade reads them, no more exact than is useful."""

import pytest

from stockroom.units import INCH, MM, System
from stockroom.units.shown import (
    show_area,
    show_length,
    show_mass,
    show_size,
    show_temperature,
    show_thickness,
    show_width,
)

METRIC, US = System.METRIC, System.US


@pytest.mark.parametrize(
    ("length_nm", "system", "shown"),
    [
        (3200 * MM, METRIC, "3.2 m"),
        (30_480 * MM, METRIC, "30.48 m"),
        (30_484 * MM, METRIC, "30.48 m"),
        (3000 * MM, METRIC, "3 m"),
        (300 * MM, METRIC, "300 mm"),
        (76_200_000, METRIC, "76.2 mm"),
        (999_960_000, METRIC, "1 m"),
        (0, METRIC, "0 mm"),
        (-3200 * MM, METRIC, "-3.2 m"),
        (126 * INCH + INCH // 2, US, "10' 6 1/2\""),
        (120 * INCH, US, "10'"),
        (120 * INCH + INCH // 8, US, "10' 1/8\""),
        (6 * INCH, US, '6"'),
        (INCH // 2, US, '1/2"'),
        (12 * INCH - 1, US, "1'"),
        (0, US, '0"'),
        (-6 * INCH, US, '-6"'),
        (-1, US, '0"'),
    ],
)
def test_a_length_is_metres_or_feet_and_inches(length_nm: int, system: System, shown: str) -> None:
    """A length reads like the tape it would be measured with."""
    assert show_length(length_nm, system) == shown


@pytest.mark.parametrize(
    ("width_nm", "system", "shown"),
    [
        (60 * INCH, METRIC, "1524 mm"),
        (60 * INCH, US, "60 in"),
        (12 * INCH + INCH // 2, US, "12 1/2 in"),
        (76_200_000, METRIC, "76.2 mm"),
    ],
)
def test_a_width_is_always_in_the_small_unit(width_nm: int, system: System, shown: str) -> None:
    """Widths of rolls are named in millimetres or inches, however wide."""
    assert show_width(width_nm, system) == shown


def test_a_size_is_across_by_along() -> None:
    """One unit serves both sides."""
    assert show_size(300 * MM, 1000 * MM) == "300 \u00d7 1000 mm"
    assert show_size(12 * INCH, 40 * INCH, US) == "12 \u00d7 40 in"


@pytest.mark.parametrize(
    ("thickness_nm", "system", "shown"),
    [
        (50_800, METRIC, "50.8 \u00b5m"),
        (50_000, METRIC, "50 \u00b5m"),
        (50_800, US, "2 mil"),
        (50_000, US, "1.97 mil"),
    ],
)
def test_a_thickness_is_micrometres_or_mils(thickness_nm: int, system: System, shown: str) -> None:
    """Film is thin in either system."""
    assert show_thickness(thickness_nm, system) == shown


@pytest.mark.parametrize(
    ("area_mm2", "system", "shown"),
    [
        (4_650_000, METRIC, "4.65 m\u00b2"),
        (4_645_152, US, "50 sq ft"),
        (90_000, METRIC, "0.09 m\u00b2"),
        (-4_650_000, METRIC, "-4.65 m\u00b2"),
    ],
)
def test_an_area_is_square_metres_or_feet(area_mm2: int, system: System, shown: str) -> None:
    """Film used is area."""
    assert show_area(area_mm2, system) == shown


@pytest.mark.parametrize(
    ("mass_mg", "system", "shown"),
    [
        (4_100_000, METRIC, "4.1 kg"),
        (350_000, METRIC, "350 g"),
        (4_082_331, US, "9 lb"),
        (226_796, US, "8 oz"),
    ],
)
def test_a_mass_is_kilograms_or_pounds(mass_mg: int, system: System, shown: str) -> None:
    """A mass below the unit is shown in the smaller one."""
    assert show_mass(mass_mg, system) == shown


@pytest.mark.parametrize(
    ("celsius", "system", "said"),
    [
        (22.5, METRIC, "22.5 °C"),
        (30.0, METRIC, "30 °C"),
        (30.0, US, "86 °F"),
        (-40.0, US, "-40 °F"),
    ],
)
def test_temperatures(celsius: float, system: System, said: str) -> None:
    """To the tenth of a degree; minus forty is the same on both scales."""
    assert show_temperature(celsius, system) == said
