"""Moist air and the warming of a roll against the Handbook, psychrolib and a printed table."""

import csv
from collections.abc import Callable, Iterator
from pathlib import Path

import psychrolib
import pytest

from stockroom.film import moisture

_SEA_LEVEL_PA = 101_325
_WATER_TO_AIR = 0.621945  # molar masses; ASHRAE Fundamentals 2017, chapter 1, equation 20


@pytest.fixture(autouse=True, scope="module")
def _metric() -> None:
    """Pressures are in pascal, temperatures in Celsius."""
    psychrolib.SetUnitSystem(psychrolib.SI)


def _saturated_humidity_ratio(temperature_c: float) -> float:
    pressure_pa = moisture.saturation_pressure_pa(temperature_c)
    return _WATER_TO_AIR * pressure_pa / (_SEA_LEVEL_PA - pressure_pa)


_QUANTITIES: dict[str, Callable[..., float]] = {
    "saturation_pressure_pa": moisture.saturation_pressure_pa,
    "dew_point_c": moisture.dew_point_c,
    "saturated_humidity_ratio": _saturated_humidity_ratio,
    "warm_up_hours": moisture.warm_up_hours,
    "volume_per_surface_m": moisture.volume_per_surface_m,
}


def _rows() -> Iterator[object]:
    with (Path(__file__).parent / "moisture.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            yield pytest.param(row, id=row["row"])


@pytest.mark.parametrize("row", list(_rows()))
def test_every_row_of_the_vector_file_comes_out(row: dict[str, str]) -> None:
    """Each with its own tolerance; the source stands in the row."""
    arguments = [float(number) for number in row["arguments"].split()]

    result = _QUANTITIES[row["quantity"]](*arguments)

    assert result == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]), rel=0)
    assert row["source"]


@pytest.mark.parametrize("tenths", range(-1_000, 2_001, 37))
def test_saturation_pressure_is_that_of_psychrolib(tenths: int) -> None:
    """Over the whole range of the equations, ice and water, and on both sides of the triple point."""
    for temperature_c in (tenths / 10, 0.0, 0.009, 0.01, 0.011):
        assert moisture.saturation_pressure_pa(temperature_c) == pytest.approx(
            psychrolib.GetSatVapPres(temperature_c), rel=1e-12
        )


@pytest.mark.parametrize("air_c", [-30, -5, 0, 0.01, 0.02, 4, 15, 22.5, 30, 45, 70])
@pytest.mark.parametrize("humidity", [0.01, 0.05, 0.2, 0.5, 0.65, 0.9, 0.999, 1.0])
def test_the_dew_point_is_that_of_psychrolib(air_c: float, humidity: float) -> None:
    """As close as its own iteration ends: a thousandth of a kelvin."""
    assert moisture.dew_point_c(air_c, humidity) == pytest.approx(
        psychrolib.GetTDewPointFromRelHum(air_c, humidity), abs=1.5e-3
    )


@pytest.mark.parametrize("surface_c", [-5, 2, 11.1, 22, 30])
def test_the_humidity_at_a_surface_follows_from_the_vapour_pressure(surface_c: float) -> None:
    """Vapour pressure by psychrolib; above 1 the surface is wet."""
    vapour_pa = psychrolib.GetVapPresFromRelHum(22, 0.5)

    assert moisture.humidity_at_surface(22, 0.5, surface_c) == pytest.approx(
        vapour_pa / psychrolib.GetSatVapPres(surface_c), rel=1e-12
    )
